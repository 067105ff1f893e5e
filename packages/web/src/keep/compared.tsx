// The present state held against a kept one: which inputs differ, which findings move or flip.
import type { Comparison } from '@layshaft/core';
import { useEffect, useRef } from 'react';
import type { SheetState } from '../document/state.ts';
import { useSheet } from '../sheet/context.ts';
import { lookBy } from '../sheet/sight.ts';

export function Compared({ state, comparison }: { readonly state: SheetState; readonly comparison: Comparison }) {
  const sheet = useSheet();
  const name = state.against ?? '';
  const { inputs, findings } = comparison;
  const own = useRef<HTMLElement>(null);
  // It stands at the head of the sheet, which may be far from where one is.
  useEffect(() => own.current?.closest('.sheet')?.scrollTo({ top: 0 }), []);
  return (
    <section ref={own} className="chapter compared" aria-label={`Against ${name}`}>
      <h2 className="chap">Against the kept state {name}</h2>
      {inputs.length === 0 && findings.length === 0 && <p className="result">Nothing differs.</p>}
      {inputs.length > 0 && (
        <table className="data" data-table="inputs-that-differ">
          <caption>Inputs that differ</caption>
          <Heads names={['input', name, 'now']} />
          <tbody>
            {inputs.map(({ path, before, after }) => (
              <tr key={path}>
                <th scope="row">{path}</th>
                <td className="r">{before ?? 'not there'}</td>
                <td className="r">{after ?? 'not there'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {findings.length > 0 && (
        <table className="data" data-table="findings-that-move">
          <caption>Findings that move</caption>
          <Heads names={['finding', name, 'now', 'verdict']} />
          <tbody>
            {findings.map(({ address, before, after, flips }) => (
              <tr key={address}>
                <th scope="row">
                  <button type="button" className="quiet" onClick={(event) => void lookBy(event, sheet, address)}>
                    {address}
                  </button>
                </th>
                <td className="r">{before?.margin?.text ?? ''}</td>
                <td className="r">{after?.margin?.text ?? ''}</td>
                <td>
                  {flips ? `${before?.verdict ?? 'not asked'} → ${after?.verdict ?? 'not asked'}` : after?.verdict}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="answers">
        <button type="button" onClick={() => sheet.goBackTo(name)}>
          Go back to {name}
        </button>
        <button type="button" onClick={() => sheet.forget(name)}>
          Forget {name}
        </button>
        <button type="button" onClick={() => void sheet.against(undefined)}>
          Close
        </button>
      </p>
    </section>
  );
}

/** Numbers stand in the second and third column. */
const Heads = ({ names }: { readonly names: readonly string[] }) => (
  <thead>
    <tr>
      {names.map((name, at) => (
        <th key={name} scope="col" className={at === 1 || at === 2 ? 'r' : undefined}>
          {name}
        </th>
      ))}
    </tr>
  </thead>
);
