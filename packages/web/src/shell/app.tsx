// The page: head and contents above; file, sheet and margins side by side.
import { type RefObject, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Sheet } from '../document/sheet.ts';
import type { SheetState } from '../document/state.ts';
import { createFilePane } from '../file-pane/file-pane.ts';
import { Compared } from '../keep/compared.tsx';
import { Margins } from '../margins/margins.tsx';
import { Chapter, ViewOf } from '../sheet/chapter.tsx';
import { SheetContext } from '../sheet/context.ts';
import { Note } from '../sheet/note.tsx';
import { useSight } from '../sheet/sight.ts';
import { Contents } from './contents.tsx';
import { Divider } from './divider.tsx';
import { Head } from './head.tsx';
import { Notices } from './notices.tsx';
import { PastePoints } from './paste-points.tsx';

export function App({ sheet }: { readonly sheet: Sheet }) {
  const state = useSyncExternalStore(sheet.subscribe, sheet.state);
  const pane = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLElement>(null);
  const [fileOpen, openFile] = useState(false);
  const [pasting, paste] = useState(false);
  useEffect(() => begin(sheet, pane.current!), [sheet]);
  useWidth(paper, sheet);
  useKeys(sheet);
  useTitle(state);
  useSight(state);
  const problems = state.snapshot?.problems.filter(({ severity }) => severity === 'problem').length ?? 0;
  return (
    <SheetContext value={sheet}>
      <a className="skip" href="#sheet">
        To the sheet
      </a>
      <Head state={state} />
      <Contents chapters={state.snapshot?.chapters ?? []} />
      <main data-file={fileOpen || undefined}>
        <section className="file" aria-label="Machine file">
          <header>
            <h2>{state.file ?? 'no file'}</h2>
            {state.file !== undefined && (
              <button type="button" className="quiet" aria-expanded={pasting} onClick={() => paste(!pasting)}>
                points from a list
              </button>
            )}
            {problems > 0 && <span className="pr">{problems === 1 ? '1 problem' : `${problems} problems`}</span>}
          </header>
          <div className="pane" ref={pane} />
          <button className="edge" type="button" aria-expanded={fileOpen} onClick={() => openFile(!fileOpen)}>
            {fileOpen ? 'Fold the file' : 'File'} {!fileOpen && problems > 0 && <b>{problems}</b>}
          </button>
        </section>
        <Divider />
        <article className="sheet" id="sheet" ref={paper} tabIndex={-1} aria-label="Sheet">
          <div className="spread">
            <div className="chapters">
              <Notices state={state} />
              {pasting && <PastePoints close={() => paste(false)} />}
              {state.comparison !== undefined && <Compared state={state} comparison={state.comparison} />}
              {state.snapshot?.chapters.map((chapter) => (
                <Chapter key={chapter.domain} chapter={chapter} state={state} />
              ))}
              {state.snapshot?.looked.map((view) => (
                <ViewOf key={view.address} view={view} state={state} title={view.title} several={false}>
                  <p className="answers">
                    <button type="button" onClick={() => void sheet.look(undefined)}>
                      close
                    </button>
                  </p>
                </ViewOf>
              ))}
              {state.snapshot !== undefined && state.snapshot.chapters.length === 0 && <Empty />}
              {state.snapshot === undefined && state.file !== undefined && <Reading />}
              {state.file === undefined && <Welcome />}
              <div className="sheet-end" />
            </div>
            {state.note !== undefined && <Note state={state} note={state.note} />}
          </div>
        </article>
        <Margins state={state} />
      </main>
    </SheetContext>
  );
}

const Welcome = () => (
  <div className="chapter">
    <p className="result">From one plain text file: does the machine’s control system hold, by how much, and why?</p>
    <p>
      A machine is a text file of this folder. <b>New machine</b> above begins one with a small example to change; the
      margins at the right follow while you type.
    </p>
  </div>
);

const Reading = () => (
  <div className="chapter">
    <p className="result">The file is being read …</p>
  </div>
);

const Empty = () => (
  <div className="chapter">
    <p className="result">Nothing can be shown yet.</p>
    <p>
      Write a section into the file at the left: <code>axes</code>, <code>networks</code>, <code>tasks</code>,{' '}
      <code>marks</code> or <code>points</code>, one is enough. While you type, words that fit are offered; the problems
      under its lines say what is missing.
    </p>
  </div>
);

function begin(sheet: Sheet, parent: HTMLElement): void {
  void sheet.start(({ text, saved }) =>
    createFilePane({
      parent,
      text,
      ...(saved === undefined ? {} : { saved }),
      label: 'Text of the machine file',
      nonce: document.querySelector<HTMLMetaElement>('meta[name="csp-nonce"]')?.content ?? '',
      completion: () => sheet.ask('completion', {}),
      onChange: (_, by) => sheet.changed(by),
    }),
  );
}

function useWidth(paper: RefObject<HTMLElement | null>, sheet: Sheet): void {
  useEffect(() => {
    const observer = new ResizeObserver(([entry]) => {
      const figure = paper.current?.querySelector('figure');
      sheet.resize(figure?.clientWidth ?? entry!.contentRect.width - 60);
    });
    observer.observe(paper.current!.querySelector('.chapters')!);
    return () => observer.disconnect();
  }, [paper, sheet]);
}

/** Undo and redo work wherever the keyboard is; a field that is being typed in keeps its own. */
function useKeys(sheet: Sheet): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const target = event.target as HTMLElement;
      if (event.key === 'Escape' && !target.closest('.pane') && sheet.state().address !== undefined) {
        void sheet.look(undefined);
        return;
      }
      const undo = (event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === 'z';
      const redo = (event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === 'y';
      if ((!undo && !redo) || target.closest('.pane, input, textarea')) return;
      event.preventDefault();
      if (redo || event.shiftKey) sheet.redo();
      else sheet.undo();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [sheet]);
}

function useTitle({ snapshot, file }: SheetState): void {
  const name = snapshot?.machine ?? file;
  useEffect(() => {
    document.title = name === undefined ? 'Layshaft' : `${name} · Layshaft`;
  }, [name]);
}
