// The bar of a finding: a line as far as the demand goes, a notch where the wanted reserve begins, a rail at the capacity.
import type { MarginBar, Verdict } from '@layshaft/core';
import { useEffect, useRef } from 'react';

interface BarProps {
  readonly bar: MarginBar;
  readonly verdict: string;
  /** Where the demand ended before the last edit. */
  readonly was?: number | undefined;
  /** What is missing, where the verdict is unknown. */
  readonly lacks?: string | undefined;
}

export function Bar({ bar, verdict, was, lacks }: BarProps) {
  const element = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const set = (name: string, value: number | undefined) =>
      value === undefined
        ? element.current?.style.removeProperty(name)
        : element.current?.style.setProperty(name, String(value));
    set('--d', bar.demand);
    set('--n', bar.notch);
    set('--c', bar.rail);
    set('--g', was);
  });
  return (
    <span className={`bar ${verdict}${bar.cut ? ' cut' : ''}`} ref={element} role="img" aria-label={bar.text}>
      {verdict === 'unknown' ? (
        <i className="open">{lacks}</i>
      ) : (
        bar.demand !== undefined && (
          <>
            <i className="used" />
            <i className="gap" />
            <i className="short" />
          </>
        )
      )}
      {bar.notch !== undefined && verdict !== 'unknown' && <i className="notch" />}
      {was !== undefined && was !== bar.demand && verdict !== 'unknown' && <i className="was" />}
    </span>
  );
}

/** A margin in miniature: where the body ends before, at or through the gate is the meaning. */
export const Glyph = ({ verdict }: { readonly verdict: Verdict }) => (
  <span className={`glyph ${verdict}`} aria-hidden="true">
    <i className="used" />
    <i className="gap" />
  </span>
);
