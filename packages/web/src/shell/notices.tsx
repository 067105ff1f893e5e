// What the page has to say or to ask: one thing at a time, on the sheet, never over it.
import type { Conflict, OpenChoice, SheetState } from '../document/state.ts';
import { useSheet } from '../sheet/context.ts';
import { takeFocus } from './focus.ts';

export function Notices({ state }: { readonly state: SheetState }) {
  const { conflict, choice, notice, defect } = state;
  return (
    <div className="notices">
      <p role="status" className={notice === undefined ? 'vh' : 'notice'}>
        {notice}
      </p>
      {defect !== undefined && (
        <div role="alert" className="notice">
          <p>This is a defect of Layshaft, not of your file. Your text is kept. Please report:</p>
          <pre>{defect}</pre>
        </div>
      )}
      {choice !== undefined && <Ask choice={choice} />}
      {conflict !== undefined && <Clash conflict={conflict} />}
    </div>
  );
}

function Ask({ choice: { here, source, shared, decide } }: { readonly choice: OpenChoice }) {
  return (
    <div role="alertdialog" aria-labelledby="choice" className="notice">
      <p id="choice">
        The value of <code>{here}</code> is written at <code>{source}</code>
        {shared.length > 1 ? ` and shared by ${shared.length} places.` : '.'} Change it
      </p>
      <p className="answers">
        <button type="button" ref={takeFocus} onClick={() => decide('here')}>
          here alone
        </button>
        <button type="button" onClick={() => decide('source')}>
          where it is written, for all
        </button>
        <button type="button" onClick={() => decide(undefined)}>
          not at all
        </button>
      </p>
    </div>
  );
}

function Clash({ conflict: { merged } }: { readonly conflict: Conflict }) {
  const sheet = useSheet();
  const { clashes } = merged;
  return (
    <div role="alertdialog" aria-labelledby="clash" className="notice">
      <p id="clash">
        The file was changed by another program while you changed it here. Nothing is lost: both texts are kept.{' '}
        {clashes.length === 0
          ? 'The changes touch different lines and go together.'
          : `At ${clashes.length === 1 ? 'one place' : `${clashes.length} places`} both changed the same lines; there yours would hold:`}
      </p>
      {clashes.map(({ mine, theirs }) => (
        <div key={`${mine}\n${theirs}`} className="clash">
          <pre>
            <b>yours</b>
            {`\n${mine}`}
          </pre>
          <pre>
            <b>on disk</b>
            {`\n${theirs}`}
          </pre>
        </div>
      ))}
      <p className="answers">
        <button type="button" ref={takeFocus} onClick={() => sheet.settle('both')}>
          Bring both together
        </button>
        <button type="button" onClick={() => sheet.settle('mine')}>
          Keep mine
        </button>
        <button type="button" onClick={() => sheet.settle('theirs')}>
          Take what is on disk
        </button>
      </p>
    </div>
  );
}
