// A parsed text with a change made in its trees. What is new stands on a line of its own behind the text, so that its
// problems have a place, and every node a span that no other has.
import { adding, type Child, removing, replacing, shifted } from '../reading/edit-tree.ts';
import type { ParsedText, PlacedSection } from '../reading/parse.ts';
import { SourceText } from '../reading/source-text.ts';
import type { Entry, Node } from '../reading/tree.ts';
import type { Change, Line } from './change.ts';

/** A text with lines behind it that are not in the file. */
export class VariedText extends SourceText {}

export function changed(parsed: ParsedText, change: Change): ParsedText {
  const line = change.kind === 'remove' ? '' : change.line.text;
  const { file, text } = parsed.source;
  const source = new VariedText(file, `${text}\n${line}`);
  const end = text.length + 1;
  if (change.kind === 'add-section') {
    const { key, keySpan, value } = change.line;
    const section = placed(source, end, { key: key!, keySpan, value });
    return { ...parsed, source, sections: parsed.sections.toSpliced(change.index, 0, section) };
  }
  const sections = parsed.sections.flatMap((each): readonly PlacedSection[] => {
    if (each.parsed !== change.section.parsed) return [each];
    const value = treeAfter(change, end - each.start);
    return value === undefined ? [] : [placed(source, each.start, { ...each.parsed.entry!, value }, each)];
  });
  return { ...parsed, source, sections };
}

/** A section that is in no text; no text that is read later shall be taken for it. */
const placed = (source: SourceText, start: number, entry: Entry, before?: PlacedSection): PlacedSection => ({
  source,
  start,
  parsed: { text: '', defects: before?.parsed.defects ?? [], broken: before?.parsed.broken ?? false, entry },
});

/** The tree of the section after the change; nothing when the section goes. `end` is where the new line starts. */
function treeAfter(change: Exclude<Change, { kind: 'add-section' }>, end: number): Node | undefined {
  if (change.kind === 'replace') return replacing(change.trail, shifted(change.line.value, end));
  if (change.kind === 'add') return adding(change.trail, change.index, shiftedLine(change.line, end));
  return change.trail.length > 1 ? removing(change.trail) : undefined;
}

const shiftedLine = ({ key, keySpan, value }: Line, by: number): Child => ({
  key,
  keySpan: { from: keySpan.from + by, to: keySpan.to + by },
  value: shifted(value, by),
});
