// timing.update: does each axis get its setpoints as often as its motion and its loop need them?
import { question } from '../../checks/finding.ts';
import { Missing } from '../../working/missing.ts';
import type { Timing } from '../timing.ts';
import { type PlannedUpdate, strictest } from '../updates.ts';

export const neededUpdate = question<Timing, PlannedUpdate>({
  id: 'timing.update',
  title: 'Needed update',
  asks: 'Does the axis get its setpoints as often as its motion, its loop and its neighbours need them?',
  page: `Asked of every axis on a network that says its \`tolerance\`, its \`speed_step_at_most\` or the axes that it
\`agrees_with\`, or whose position loop closes over the network (\`loop: controller\`). Demand: the period in which its
network serves it.

Capacity: the slowest period that all reasons bear, each held against the whole tolerance. Between setpoints the drive
goes in straight lines, which leave the curve by a·T²/8; in cubic curves (\`interpolates: cubic\`), by j·T³/96 or a·T²/16,
whichever is less; or it holds each (\`none\`), and errs by v·T. Straight lines and held setpoints make the speed step by
a·T. A loop over the network has dead time of two and a half periods, which its gain must leave a phase margin of 60°.
Setpoints that jitter cost v·j; a drive with a clock of its own takes them over up to a period
late, more and less in the beat of both clocks. Where each setpoint is held, \`show timing\` tells the torque that
jitter asks for, J·ω·j/T².

Behind a master that an encoder gives, the tool lags by its speed times sample, filter, the cycle in the controller and the
way of the setpoint into the drive; where the speed carries the master on (\`lead: speed\`), what is left is half the
acceleration on its ramps times the square of that time. Two axes that must agree part by the gains of their position loops
(for what is not fed forward), by the periods in which setpoints wait in one drive longer than in the other, by what
their commands arrive apart, and by the jitter of both, added as if all went the same way.

A reason that no period makes less, such as jitter, asks for nothing while what it costs is allowed; where it is not, no
period will do. \`show timing\` has each reason with what it costs. Left out: what the position loop lags behind its
setpoint, which \`axes.following\` tells, and networks whose cycles do not begin together.`,
  advice: 'a shorter cycle, a smaller multiple, a smoother motion',
  subjects: ({ updates }) => updates.filter(({ slowest }) => slowest !== undefined),
  name: ({ axis }) => axis.name,
  path: ({ axis }) => axis.path,
  reserve: { share: 0.1, source: 'judgement', because: 'a tolerance is not for the setpoints alone' },
  demand: ({ station }) => station.period,
  capacity: ({ slowest }) => slowest!,
  says: (demand, capacity, update) =>
    noneWillDo(update)
      ? `served every ${demand}; no period will do: ${capacity} are left by ${strictest(update)}`
      : `served every ${demand}; ${capacity} will do, set by ${strictest(update)}`,
});

const noneWillDo = ({ slowest }: PlannedUpdate): boolean => !(slowest instanceof Missing) && slowest!.value <= 0;
