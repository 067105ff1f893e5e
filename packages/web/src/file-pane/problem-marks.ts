// Problems where they are: underlined in the text, and said under their line with what to write instead.
import { isolateHistory } from '@codemirror/commands';
import { type ChangeDesc, type EditorState, type Range, StateEffect, StateField, type Text } from '@codemirror/state';
import { Decoration, type DecorationSet, EditorView, WidgetType } from '@codemirror/view';

export interface ProblemAt {
  readonly from: number;
  readonly to: number;
  readonly line: number;
  readonly column: number;
  readonly message: string;
  readonly remedy: string;
  readonly severity: 'problem' | 'remark';
  /** What would stand at the place instead, where the remedy is that simple. */
  readonly replacement?: string;
}

export const setProblems = StateEffect.define<readonly ProblemAt[]>();

/** The problems of a state, at their places as edits have moved them. */
export const problemsOf = (state: EditorState): readonly ProblemAt[] => state.field(problemMarks).problems;

export const problemMarks = StateField.define<Marked>({
  create: () => ({ problems: [], marks: Decoration.none }),
  update: (before, edit) => {
    const effect = edit.effects.find((each) => each.is(setProblems));
    if (effect === undefined && !edit.docChanged) return before;
    const problems =
      effect?.value.map((each) => within(each, edit.newDoc)) ??
      before.problems.map((each) => moved(each, edit.changes, edit.newDoc));
    return { problems, marks: marksOf(problems, edit.newDoc) };
  },
  provide: (field) => EditorView.decorations.from(field, ({ marks }) => marks),
});

interface Marked {
  readonly problems: readonly ProblemAt[];
  readonly marks: DecorationSet;
}

/** How many problems are said under their lines; the others are underlined only. Our judgement: more hide the file. */
export const mostSaid = 50;

/** A problem may be told of the end of the text, or of a text that was longer a moment ago; its place stays inside. */
const within = (problem: ProblemAt, text: Text): ProblemAt => ({
  ...problem,
  from: Math.min(problem.from, text.length),
  to: Math.min(problem.to, text.length),
});

function moved(problem: ProblemAt, changes: ChangeDesc, text: Text): ProblemAt {
  const from = changes.mapPos(problem.from, -1);
  const to = changes.mapPos(problem.to, 1);
  if (changes.touchesRange(0, problem.to) === false) return problem;
  const line = text.lineAt(from);
  return { ...problem, from, to, line: line.number, column: from - line.from + 1 };
}

function marksOf(problems: readonly ProblemAt[], text: Text): DecorationSet {
  const marks: Range<Decoration>[] = problems.flatMap((problem, index) => {
    const line = text.lineAt(Math.min(problem.from, text.length));
    const said = index < mostSaid ? [saying(problem, index).range(line.to)] : [];
    // A place without characters, as of something missing, is shown by the character beside it.
    const to = Math.min(Math.max(problem.to, problem.from + 1), line.to);
    const from = Math.max(Math.min(problem.from, to - 1), line.from);
    return from < to ? [underline[problem.severity].range(from, to), ...said] : said;
  });
  return Decoration.set(marks, true);
}

const underline = {
  problem: Decoration.mark({ class: 'file-wrong', attributes: { 'data-severity': 'problem' } }),
  remark: Decoration.mark({ class: 'file-wrong', attributes: { 'data-severity': 'remark' } }),
};

const saying = (problem: ProblemAt, index: number): Decoration =>
  Decoration.widget({ widget: new ProblemText(problem, index), block: true, side: 1 });

class ProblemText extends WidgetType {
  readonly problem: ProblemAt;
  readonly index: number;

  constructor(problem: ProblemAt, index: number) {
    super();
    this.problem = problem;
    this.index = index;
  }

  override eq(other: ProblemText): boolean {
    const said = ({ problem, index }: ProblemText) =>
      [
        index,
        problem.line,
        problem.column,
        problem.severity,
        problem.message,
        problem.remedy,
        problem.replacement,
      ].join('\n');
    return said(this) === said(other);
  }

  override toDOM(view: EditorView): HTMLElement {
    const { line, column, message, remedy, severity, replacement } = this.problem;
    const block = element('div', 'file-problem');
    block.setAttribute('role', 'note');
    block.dataset.severity = severity;
    const what = element('p', 'file-problem-what');
    what.append(element('b', 'file-problem-place', `${line}:${column}`), ` ${message}`);
    const fix = element('p', 'file-problem-fix');
    if (replacement !== undefined) fix.append(this.#button(view, replacement), ' ');
    fix.append(remedy);
    block.append(what, fix);
    return block;
  }

  override get estimatedHeight(): number {
    return 54;
  }

  #button(view: EditorView, replacement: string): HTMLButtonElement {
    const button = element('button', 'file-problem-write', `Write “${replacement}”`);
    button.type = 'button';
    button.addEventListener('click', () => {
      const { from, to } = problemsOf(view.state)[this.index]!;
      view.dispatch({
        changes: { from, to, insert: replacement },
        selection: { anchor: from + replacement.length },
        annotations: isolateHistory.of('full'),
      });
      view.focus();
    });
    return button;
  }
}

function element<K extends keyof HTMLElementTagNameMap>(tag: K, name: string, text = ''): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  made.className = name;
  made.textContent = text;
  return made;
}
