// What the program keeps in the memories of the controller, and what they hold.
import type { Value } from '../reading/values.ts';
import type { Quantity } from '../working/quantity.ts';
import { memoryOf } from './parts.ts';
import type { TimingDesign } from './resolve.ts';

export interface Kept {
  readonly name: keyof typeof memoryOf;
  /** 'variables that last'. */
  readonly title: string;
  readonly path: string;
  readonly used: Value<Quantity>;
  readonly there: Value<Quantity>;
}

const titles = { retained: 'variables that last', cam_tables: 'tables of cams', logs: 'logs' } as const;

/** Of each entry that the file has. */
export const keptIn = ({ memory, controller }: TimingDesign): readonly Kept[] =>
  (Object.keys(memoryOf) as (keyof typeof memoryOf)[]).flatMap((name) => {
    const used = memory[name];
    return used === undefined
      ? []
      : [
          {
            name,
            title: titles[name],
            path: `${memory.path}.${name}`,
            used,
            there: controller[memoryOf[name]] as Value<Quantity>,
          },
        ];
  });
