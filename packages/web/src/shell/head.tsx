// The running head: which machine, whether it is kept, what it is held against.
import { useState } from 'react';
import type { SaveState, SheetState } from '../document/state.ts';
import { KeepState } from '../keep/keep-state.tsx';
import { useSheet } from '../sheet/context.ts';
import { NewFile } from './new-file.tsx';
import { switchTheme } from './theme.ts';

export function Head({ state }: { readonly state: SheetState }) {
  const sheet = useSheet();
  const [theme, setTheme] = useState(document.documentElement.dataset.theme);
  return (
    <header className="top">
      <p className="brand">
        <span className="logo" aria-hidden="true" />
        Layshaft
      </p>
      <div className="machine">
        <h1>{state.snapshot === undefined ? '' : (state.snapshot.machine ?? 'Machine without a name')}</h1>
        {state.files.length > 0 && (
          <label>
            <span className="vh">Machine file</span>
            <select value={state.file ?? ''} onChange={({ target }) => sheet.openFile(target.value)}>
              {state.file !== undefined && !state.files.some(({ path }) => path === state.file) && (
                <option value={state.file}>{state.file}</option>
              )}
              {state.files.map(({ path }) => (
                <option key={path} value={path}>
                  {path}
                </option>
              ))}
            </select>
          </label>
        )}
        <NewFile />
        <span role="status" className={`save ${state.save}`}>
          {state.file !== undefined && saveWords[state.save]}
        </span>
      </div>
      {state.file !== undefined && <KeepState state={state} />}
      <div className="acts">
        <button type="button" onClick={() => sheet.undo()} title="Ctrl+Z">
          Undo
        </button>
        <button type="button" onClick={() => sheet.redo()} title="Ctrl+Shift+Z">
          Redo
        </button>
        <button type="button" onClick={() => setTheme(switchTheme())}>
          {theme === 'dark' ? 'Light' : 'Dark'}
        </button>
      </div>
    </header>
  );
}

const saveWords: Readonly<Record<SaveState, string>> = {
  saved: 'on disk',
  saving: 'going to disk',
  waiting: 'not on disk yet',
  away: 'the server does not answer; kept in this browser',
  refused: 'not on disk; kept in this browser',
};
