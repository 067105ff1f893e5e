// One input: its value to type, a ruler to drag or step, what is on offer.
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import type { InputAt } from '../computing/protocol.ts';
import { useSheet } from './context.ts';
import { drawnWhenDifferent } from './same.ts';

interface InputRowProps {
  readonly input: InputAt;
  readonly before: number | undefined;
}

export const InputRow = drawnWhenDifferent(function InputRow({ input, before }: InputRowProps) {
  const sheet = useSheet();
  const origin = 'origin' in input.value ? input.value.origin : 'unknown';
  return (
    <div className="in" data-input={input.path}>
      <span className="name">{input.title}</span>
      <Typed input={input} origin={origin} />
      {input.offered === undefined ? (
        <Ruler input={input} before={before} />
      ) : (
        <span className="detents">
          {input.offered.map((text) => (
            <button
              key={text}
              type="button"
              aria-pressed={text === input.value.text}
              onClick={() => void sheet.write({ path: input.path, value: text })}
            >
              {text}
            </button>
          ))}
        </span>
      )}
      <span className="hint">
        {input.line === undefined || origin === 'catalogue' || origin === 'assumed' ? (
          origin
        ) : (
          <button type="button" className="quiet" onClick={() => sheet.reveal(input.line!)}>
            {origin}, line {input.line}
          </button>
        )}
      </span>
    </div>
  );
});

/** The value as text: typed with its unit, taken with Enter or when the field is left, stepped with the arrow keys. */
function Typed({ input, origin }: { readonly input: InputAt; readonly origin: string }) {
  const sheet = useSheet();
  const [typed, setTyped] = useState<string>();
  const take = (): void => {
    if (typed !== undefined && typed !== input.value.text) void sheet.write({ path: input.path, value: typed });
    setTyped(undefined);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') take();
    if (event.key === 'Escape') setTyped(undefined);
    if (typed === undefined) stepByKey(event, sheet, input);
  };
  const shown = 'address' in input.value ? input.value.text : (input.written ?? input.value.text);
  return (
    <input
      className={`val o ${origin}`}
      aria-label={`${input.title}, with its unit`}
      value={typed ?? shown}
      spellCheck={false}
      onChange={({ target }) => setTyped(target.value)}
      onBlur={take}
      onKeyDown={onKeyDown}
    />
  );
}

function Ruler({ input, before }: { readonly input: InputAt; readonly before: number | undefined }) {
  const sheet = useSheet();
  const element = useRef<HTMLDivElement>(null);
  const held = useRef(false);
  useEffect(() => {
    element.current?.style.setProperty('--at', String(input.place ?? 0));
    element.current?.style.setProperty('--was', String(before ?? -1));
  });
  if (input.place === undefined) return <span />;
  const follow = (event: PointerEvent): void => {
    const box = element.current!.getBoundingClientRect();
    sheet.move({ place: (event.clientX - box.left) / box.width });
  };
  const letGo = (): void => {
    if (held.current) sheet.endMove();
    held.current = false;
  };
  return (
    <div
      ref={element}
      className="ruler"
      role="slider"
      tabIndex={0}
      aria-label={input.title}
      aria-valuemin={0}
      aria-valuemax={1}
      aria-valuenow={input.place}
      aria-valuetext={input.value.text}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = true;
        sheet.startMove(input.path);
        follow(event);
      }}
      onPointerMove={(event) => held.current && follow(event)}
      onPointerUp={letGo}
      onPointerCancel={letGo}
      onKeyDown={(event) => stepByKey(event, sheet, input)}
    >
      <i className="track" />
      {before !== undefined && before !== input.place && <i className="before" />}
      <i className="at" />
    </div>
  );
}

const steps: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowRight: 1,
  ArrowDown: -1,
  ArrowLeft: -1,
  PageUp: 10,
  PageDown: -10,
};

/** In a field only up and down step; left and right move the cursor. */
function stepByKey(event: KeyboardEvent, sheet: ReturnType<typeof useSheet>, input: InputAt): void {
  const by = steps[event.key];
  const inField = (event.target as Element).tagName === 'INPUT';
  if (by === undefined || input.place === undefined || (inField && /Left|Right/.test(event.key))) return;
  event.preventDefault();
  sheet.startMove(input.path);
  sheet.move({ steps: by });
  sheet.endMove();
}
