// timing.chain: does a cause have its effect in time, or before the product is too far on?
import { question } from '../../checks/finding.ts';
import type { PlannedChain } from '../chains.ts';
import type { Timing } from '../timing.ts';

export const chain = question<Timing, PlannedChain>({
  id: 'timing.chain',
  title: 'From cause to effect',
  asks: 'Does the effect come in time, or before the product is too far on?',
  page: `Asked of every chain with \`within\`. Demand: its longest delay, or the way of the product meanwhile. The station that
a point hangs on (\`at\`) is a link whether \`through\` names it or not. A link that looks once in a period has just looked
when the data come, and takes its longest; links that share a clock with the one before
(\`offset\`, and stations that a network serves in each cycle) are walked from look to look over their common period
instead. Networks keep step with each other and with tasks unless one goes by a clock of its own (\`clock: own\`) or starts
its cycles apart (\`offset\`); a cycle that may start late (\`start_jitter\`) is looked at as late as that. Where all that looks are tasks of one core that start together and always take as long, every
job of the schedule is walked, and the delay is reached.

A chain may end in an axis: then the buffers of its drive count, the jitter of its setpoints, and by how much its position
loop is behind them, (1 − feed_forward)/gain.

With \`lead: constant_part\` the part of the delay that is always there is made good by a lead, and only the rest counts.

Capacity: \`within\`. Left out: telegrams that are lost; each costs a period of its network more.`,
  advice: 'shorter periods, fewer links, links on one clock, a lead',
  subjects: ({ chains }) => chains.filter(({ demand }) => demand !== undefined),
  name: ({ name }) => name,
  path: ({ path }) => path,
  reserve: { share: 0.1, source: 'judgement', because: 'what acts grows slower with wear' },
  demand: ({ demand }) => demand!,
  capacity: ({ section }) => section.within!,
  says: (demand, capacity, { section, demand: found }) =>
    `${section.lead === 'constant_part' ? 'behind its lead' : 'from cause to effect'} ${found !== undefined && 'unit' in found && found.unit === 's' ? `${demand} pass` : `the product goes ${demand}`} at most, ${capacity} are allowed`,
});
