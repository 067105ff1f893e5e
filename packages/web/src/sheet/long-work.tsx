// Long work on the page: what is asked for, a start, how far it is, a stop, and what became of it.
import { type ReactNode, useState } from 'react';
import type { WorkAt } from '../computing/protocol.ts';
import type { WorkState } from '../document/state.ts';
import { useSheet } from './context.ts';

interface WorkProps {
  readonly work: WorkAt;
  readonly address: string;
  /** The title of the view: there may be the same work of another. */
  readonly about: string;
  readonly state: WorkState | undefined;
}

export function Work({ work, address, about, state }: WorkProps) {
  const sheet = useSheet();
  const [count, setCount] = useState(work.usual.toExponential().replace('+', ''));
  const [seed, setSeed] = useState('1');
  const runs = state?.kind === 'runs';
  return (
    <LongForm
      work={work}
      about={about}
      state={state}
      start={() => void sheet.works.start(address, work, count, seed)}
      stop={() => sheet.works.stop(address, work.name)}
    >
      <Field label={work.counts} text={count} onText={setCount} isLocked={runs} />
      <Field label="seed" text={seed} onText={setSeed} isLocked={runs} />
    </LongForm>
  );
}

interface LongFormProps {
  readonly work: { readonly name: string; readonly title: string };
  readonly about: string;
  readonly state: WorkState | undefined;
  readonly start: () => void;
  readonly stop: () => void;
  /** What is asked for. */
  readonly children?: ReactNode;
}

export function LongForm({ work: { name, title }, about, state, start, stop, children }: LongFormProps) {
  const runs = state?.kind === 'runs';
  return (
    <form
      className="long"
      data-work={name}
      aria-label={`${title}, ${about}`}
      onSubmit={(event) => {
        event.preventDefault();
        if (runs) stop();
        else start();
      }}
    >
      <b>{title}</b>
      {children}
      <button type="submit">{runs ? 'Stop' : 'Start'}</button>
      {runs && (
        <>
          <progress max={100} value={state.share} aria-label={`${title}, ${about}: how far`} />
          <span className="far">{state.says}</span>
        </>
      )}
      {/* How far it is would be read out a hundred times. */}
      <p role="status" className={runs ? 'vh' : undefined} data-became={state?.kind}>
        {runs ? 'It runs.' : state?.says}
      </p>
    </form>
  );
}

interface FieldProps {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
  readonly isLocked: boolean;
}

const Field = ({ label, text, onText, isLocked }: FieldProps) => (
  <label>
    {label}
    <input
      value={text}
      inputMode="numeric"
      spellCheck={false}
      readOnly={isLocked}
      onChange={({ target }) => onText(target.value)}
    />
  </label>
);
