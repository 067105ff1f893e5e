// The values of a network and of a station that one would move to see what follows.
import type { Cell, Input } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import type { Device, Network } from './network.ts';

/** What one would move to see the network follow. */
export function inputsOfNetwork({ path, cycle, repeats, non_cyclic, controller, profile }: Network): readonly Input[] {
  const offered =
    controller.cycles instanceof Missing ? [] : controller.cycles.filter((each) => each instanceof Quantity);
  return [
    {
      path: `${path}.cycle`,
      title: 'Cycle',
      value: cycle,
      ...(offered.length > 0
        ? { offered }
        : cycle instanceof Missing
          ? {}
          : { span: { least: 0, most: 2 * cycle.value } }),
    },
    { path: `${path}.repeats`, title: 'Repeats kept in hand', value: repeats, span: { least: 0, most: 8, step: 1 } },
    {
      path: `${path}.non_cyclic`,
      title: 'Non-cyclic frame',
      value: non_cyclic,
      ...(profile.frame_at_most instanceof Missing
        ? {}
        : { span: { least: 0, most: profile.frame_at_most.value, step: octet_bit } }),
    },
  ];
}

/** Frames are counted in octets. */
const octet_bit = 8;

/** What one would move of a station to see the network follow. */
export function inputsOfStation({ path, turnaround, forwarding, command, answer }: Device): readonly Input[] {
  const moved = (key: string, title: string, value: Cell, step?: number): Input => ({
    path: `${path}.${key}`,
    title,
    value,
    ...(value instanceof Quantity && value.value > 0
      ? { span: { least: 0, most: 3 * value.value, ...(step === undefined ? {} : { step }) } }
      : {}),
  });
  return [
    moved('turnaround', 'Turnaround', turnaround),
    moved('forwarding', 'Forwarding', forwarding),
    moved('command', 'Payload of the command', command, octet_bit),
    moved('answer', 'Payload of the answer', answer, octet_bit),
  ];
}
