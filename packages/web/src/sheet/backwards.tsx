// Asking backwards: which value of one input just keeps the reserve of a finding?
import type { Asking, Candidate } from '@layshaft/core';
import { useEffect, useState } from 'react';
import { useSheet } from './context.ts';

interface BackwardsProps {
  readonly finding: string;
  /** The text that is asked about; an answer to another one is none. */
  readonly text: string;
}

export function Backwards({ finding, text }: BackwardsProps) {
  const sheet = useSheet();
  const [inputs, setInputs] = useState<readonly Candidate[]>([]);
  const [path, setPath] = useState<string>();
  const [asked, setAsked] = useState<Asking>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: another text has other inputs
  useEffect(() => {
    let current = true;
    setAsked(undefined);
    void sheet.ask('inputs', { finding }).then((found) => current && setInputs(found ?? []));
    return () => {
      current = false;
    };
  }, [sheet, finding, text]);
  if (inputs.length === 0) return null;
  const chosen = path ?? inputs[0]!.path;
  const ask = async (): Promise<void> => setAsked(await sheet.ask('backwards', { finding, path: chosen }));
  return (
    <form
      className="backwards"
      onSubmit={(event) => {
        event.preventDefault();
        void ask();
      }}
    >
      <label>
        Which value just keeps the reserve, of
        <select
          value={chosen}
          onChange={({ target }) => {
            setPath(target.value);
            setAsked(undefined);
          }}
        >
          {inputs.map((input) => (
            <option key={input.path} value={input.path}>
              {input.path} ({input.text}, {input.origin})
            </option>
          ))}
        </select>
      </label>
      <button type="submit">Ask backwards</button>
      <p role="status">{asked !== undefined && <Answered asked={asked} path={chosen} />}</p>
    </form>
  );
}

function Answered({ asked, path }: { readonly asked: Asking; readonly path: string }) {
  const sheet = useSheet();
  switch (asked.kind) {
    case 'just keeps':
      return (
        <>
          {asked.side} <b>{asked.value.text}</b> keeps it; {asked.beyond} does not ({asked.verdictBeyond}).{' '}
          <button type="button" onClick={() => void sheet.write({ path, value: asked.value.text })}>
            Write {asked.value.text}
          </button>
        </>
      );
    case 'always holds':
      return <>It is kept up to {asked.upTo}, as far as was looked.</>;
    case 'never holds':
      return <>No value that was tried keeps it.</>;
    case 'does not matter':
      return <>This finding does not move with it.</>;
    case 'refused':
      return (
        <>
          {asked.says} {asked.advice}
        </>
      );
  }
}
