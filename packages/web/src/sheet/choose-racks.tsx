// Racks chosen on the page: what shall be least, the racks that come of it, and what one more point of each kind would take.

import type { Choosing } from '@layshaft/core';
import { useState } from 'react';
import type { TableAt } from '../computing/protocol.ts';
import type { SheetState } from '../document/state.ts';
import { useSheet } from './context.ts';
import { DataTable } from './data-table.tsx';
import { LongForm } from './long-work.tsx';

interface ChooseRacksProps {
  readonly choosing: Choosing;
  readonly address: string;
  /** The title of the view. */
  readonly about: string;
  readonly state: SheetState;
}

/** How long the solver may look for something better, in seconds (our judgement). */
const times = { '10 s': 10, '1 min': 60, '10 min': 600, 'no limit': undefined } as const;
const timeNames = Object.keys(times) as readonly (keyof typeof times)[];

export function ChooseRacks({ choosing, address, about, state }: ChooseRacksProps) {
  const sheet = useSheet();
  const [prefer, setPrefer] = useState<'cost' | 'width'>('cost');
  const [time, setTime] = useState<keyof typeof times>('1 min');
  const { name, oneMore } = choosing;
  const workOf = (of: string) => state.works[`${address} ${of}`];
  const tableOf = (of: string): TableAt | undefined => state.tables[`${address} ${of}`];
  const runs = workOf(name)?.kind === 'runs';
  const chosen = tableOf(name);
  const more = tableOf(oneMore.name);
  return (
    <div className="later">
      <LongForm
        work={choosing}
        about={about}
        state={workOf(name)}
        start={() => void sheet.works.choose(address, choosing, { what: 'racks', prefer }, times[time])}
        stop={() => sheet.works.stop(address, name)}
      >
        <Among label="of the least" value={prefer} of={['cost', 'width']} onValue={setPrefer} isLocked={runs} />
        <Among label="time" value={time} of={timeNames} onValue={setTime} isLocked={runs} />
      </LongForm>
      {chosen && <DataTable table={chosen} address={address} />}
      {chosen?.takesAll && (
        <LongForm
          work={oneMore}
          about={about}
          state={workOf(oneMore.name)}
          start={() => void sheet.works.choose(address, choosing, { what: 'one more' }, times[time])}
          stop={() => sheet.works.stop(address, oneMore.name)}
        />
      )}
      {chosen?.takesAll && more && <DataTable table={more} address={address} />}
    </div>
  );
}

interface AmongProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly of: readonly T[];
  readonly onValue: (value: T) => void;
  readonly isLocked: boolean;
}

const Among = <T extends string>({ label, value, of, onValue, isLocked }: AmongProps<T>) => (
  <label>
    {label}
    <select value={value} disabled={isLocked} onChange={({ target }) => onValue(of[target.selectedIndex]!)}>
      {of.map((each) => (
        <option key={each}>{each}</option>
      ))}
    </select>
  </label>
);
