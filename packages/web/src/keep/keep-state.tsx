// Keeps the present state under a name, and holds the present one against a kept one.
import { useState } from 'react';
import type { SheetState } from '../document/state.ts';
import { useSheet } from '../sheet/context.ts';
import { takeFocus } from '../shell/focus.ts';

export function KeepState({ state }: { readonly state: SheetState }) {
  const sheet = useSheet();
  const [naming, setNaming] = useState<string>();
  const flips = state.comparison?.findings.filter(({ flips: flipped }) => flipped).length;
  return (
    <div className="kept">
      {naming === undefined ? (
        <button type="button" onClick={() => setNaming('')}>
          Keep to compare
        </button>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (naming.trim() !== '') sheet.keep(naming.trim());
            setNaming(undefined);
          }}
        >
          <input
            aria-label="Name of the kept state"
            placeholder="its name"
            ref={takeFocus}
            value={naming}
            onChange={({ target }) => setNaming(target.value)}
            onKeyDown={({ key }) => key === 'Escape' && setNaming(undefined)}
          />
          <button type="submit">keep</button>
        </form>
      )}
      {state.kept.length > 0 && (
        <label>
          against kept{' '}
          <select value={state.against ?? ''} onChange={({ target }) => void sheet.against(target.value || undefined)}>
            <option value="">none</option>
            {state.kept.map(({ name }) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
      )}
      {flips !== undefined && <span>{flips === 1 ? '1 verdict flips' : `${flips} verdicts flip`}</span>}
    </div>
  );
}
