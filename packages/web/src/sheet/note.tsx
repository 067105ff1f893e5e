// The margin note: one number explained like in a textbook, each of its values again open down to the given.
import { useState } from 'react';
import type { NumberAt, WorkingAt } from '../computing/protocol.ts';
import type { SheetState } from '../document/state.ts';
import { Backwards } from './backwards.tsx';
import { useSheet } from './context.ts';
import { Num } from './num.tsx';
import { useWayBack } from './sight.ts';

export function Note({ note, state }: { readonly note: WorkingAt; readonly state: SheetState }) {
  const sheet = useSheet();
  useWayBack();
  const { number, step } = note;
  const finding = state.snapshot?.findings.find(({ address }) => address === note.asked);
  return (
    <aside className="note" aria-label="Working" data-note={note.asked} tabIndex={-1}>
      <header>
        <h3>{finding === undefined ? (step?.title ?? 'A value') : `${finding.title}, ${finding.subject}`}</h3>
        <span className="res">{number.text}</span>
      </header>
      {finding !== undefined && <p className="says">{finding.says}</p>}
      {step === undefined ? (
        <p>
          <Told number={number} />
        </p>
      ) : (
        <>
          {step.when !== undefined && <p>Where {step.when}:</p>}
          {step.set === undefined ? (
            <p>{step.prose}</p>
          ) : (
            <>
              <MathOf set={step.set.formula} label="Formula" />
              {step.substituted.length <= widest ? (
                <MathOf set={step.set.substituted} label="With values" />
              ) : (
                <p className="subst">= {step.substituted}</p>
              )}
            </>
          )}
          <table>
            <tbody>
              {step.inputs.map((input) => (
                <InputValues key={input.symbol} {...input} />
              ))}
            </tbody>
          </table>
          <p className="refs">
            {step.source}. Proven by: {step.proof}. <code>{number.address}</code>
          </p>
        </>
      )}
      {finding !== undefined && (
        <Backwards finding={finding.address} text={state.snapshot?.text ?? ''} key={finding.address} />
      )}
      <p className="answers">
        <button type="button" className="quiet" onClick={() => history.back()}>
          back
        </button>
        <button type="button" className="quiet" onClick={() => void sheet.look(undefined)}>
          close
        </button>
      </p>
    </aside>
  );
}

/** Set by the library as MathML. */
const MathOf = ({ set, label }: { readonly set: string; readonly label: string }) => (
  // biome-ignore lint/security/noDangerouslySetInnerHtml: the library escapes what it sets
  <div className="formula" role="math" aria-label={label} dangerouslySetInnerHTML={{ __html: set }} />
);

/** Longer than this does not fit into one line of the note (our judgement). */
const widest = 34;

/** So many values of a list are shown at first (our judgement). */
const firstValues = 4;

function InputValues({ symbol, means, values }: NonNullable<WorkingAt['step']>['inputs'][number]) {
  const [all, showAll] = useState(false);
  const shown = all ? values : values.slice(0, firstValues);
  return (
    <>
      {shown.map((value, at) => (
        <tr key={value.address}>
          <th scope="row">{at === 0 ? symbol : ''}</th>
          <td className="val">
            <Num cell={value} />
          </td>
          <td className="what">
            {at === 0 && means}
            <span className="src">
              <Told number={value} />
            </span>
          </td>
        </tr>
      ))}
      {values.length > shown.length && (
        <tr>
          <td />
          <td colSpan={2}>
            <button type="button" className="quiet" onClick={() => showAll(true)}>
              {values.length} in all, show them
            </button>
          </td>
        </tr>
      )}
    </>
  );
}

function Told({ number }: { readonly number: NumberAt }) {
  const sheet = useSheet();
  if (number.told === undefined) return 'derived';
  if (number.line === undefined) return number.told;
  return (
    <button type="button" className="quiet" onClick={() => sheet.reveal(number.line!)}>
      {number.told}
    </button>
  );
}
