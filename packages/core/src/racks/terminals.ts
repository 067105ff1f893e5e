// The terminals of a module: counted from 1 through its groups, in each group those of its channels, then its commons.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { LaidChannel, LaidModule } from './laid-out.ts';
import type { ChannelGroup } from './rack.ts';

/** The two lines of a 24 V supply. */
export type SupplyLine = 'L+' | '0 V';

export interface ChannelTerminal {
  readonly is: 'channel';
  /** Through the module, from 1. */
  readonly number: number;
  readonly group: ChannelGroup;
  readonly groupAt: number;
  readonly channel: LaidChannel;
  /** Which of the terminals of its channel, from 1. */
  readonly ofChannel: number;
}

export interface CommonTerminal {
  readonly is: 'common';
  readonly number: number;
  readonly group: ChannelGroup;
  readonly groupAt: number;
  /** The line that it is connected to. */
  readonly line: Value<SupplyLine>;
}

export type Terminal = ChannelTerminal | CommonTerminal;

/** What is missing where a group does not say how many terminals it has: then none behind it has a number. */
export const terminalsOf = onceForEach(({ module, channels }: LaidModule): Value<readonly Terminal[]> => {
  const groups = module.groups;
  if (groups instanceof Missing) return groups;
  const asked = groups.flatMap(({ count, terminals, commons }) => [count, terminals, commons]);
  return given({ asked }, () => {
    const all: Terminal[] = [];
    groups.forEach((group, groupAt) => {
      const { terminals, commons } = group;
      if (terminals instanceof Missing || commons instanceof Missing) return;
      for (const channel of channels.filter((each) => each.groupAt === groupAt))
        for (let ofChannel = 1; ofChannel <= terminals.value; ofChannel++)
          all.push({ is: 'channel', number: all.length + 1, group, groupAt, channel, ofChannel });
      for (let common = 0; common < commons.value; common++) {
        const line = lineOf(group, common, `${module.path}.channels.${groupAt}.commons_to`);
        all.push({ is: 'common', number: all.length + 1, group, groupAt, line });
      }
    });
    return all;
  });
});

function lineOf({ commons_to }: ChannelGroup, at: number, path: string): Value<SupplyLine> {
  if (commons_to instanceof Missing) return commons_to;
  const said = commons_to?.[at];
  if (said === undefined) return missing(path, 'absent', 'plus or zero for each common terminal', '[plus, zero]');
  return said instanceof Missing ? said : said === 'plus' ? 'L+' : '0 V';
}
