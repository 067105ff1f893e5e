// The motion kernel of the controller over all its networks.
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import { leaf, type Quantity } from '../working/quantity.ts';
import { fullestCycle } from './calc/cycle.ts';
import { kernelShare, kernelTime } from './calc/kernel.ts';
import { type Controller, type Device, multipleOf, statedMultiples } from './network.ts';
import type { Planned } from './planned.ts';

/** All networks of one controller. */
export interface Controlled {
  readonly controller: Controller;
  readonly networks: readonly Planned[];
}

export const controlledBy = (networks: readonly Planned[]): readonly Controlled[] => {
  const controller = networks[0]?.network.controller;
  return controller === undefined ? [] : [{ controller, networks }];
};

/** A number that is counted from the structure of a network. */
export function counted(count: number, network: { readonly path: string }, what: string): Quantity<'1'> {
  const runs = `${network.path}.runs`;
  return leaf(count, '1', {
    kind: 'given',
    path: `${runs}.${what}`,
    via: [`counted in ${runs}`],
    writtenAt: runs,
    written: String(count),
    writtenUnit: '1',
  });
}

/** The kernel's time in the cycle in which it has most to do. */
export function kernelOf({ network, exchanges, phases, pattern }: Planned): Value<Quantity<'s'>> {
  const { controller } = network;
  const inCycle = (cycle: number): readonly Device[] =>
    exchanges.filter(({ device }, index) => cycle % multipleOf(device) === phases[index]).map(({ device }) => device);
  const times = Array.from({ length: pattern }, (_, cycle) => {
    const devices = inCycle(cycle);
    const others = devices.filter((device) => !device.axis);
    const n = counted(
      devices.length - others.length,
      network,
      pattern === 1 ? 'axes_served' : `axes_served_in_cycle_${cycle + 1}`,
    );
    return given(
      {
        b: controller.kernel_base,
        n,
        x: controller.kernel_per_axis,
        P: others.flatMap((device) => [device.command, device.answer]),
        o: controller.kernel_per_octet,
        wired: network.wired,
      },
      ({ b, n, x, P, o }) =>
        kernelTime({ b, n, x, P, o }, pattern === 1 ? network.name : `${network.name}.cycle_${cycle + 1}`),
    );
  });
  const multiples = statedMultiples(network.devices);
  return multiples.length === 0
    ? times[0]!
    : given({ b: times, n: multiples }, (known) => fullestCycle(known, `${network.name}.kernel`));
}

export const kernelShareOf = ({ networks }: Controlled): Value<Quantity<'1'>> =>
  given({ k: networks.map(kernelOf), T: networks.map(({ network }) => network.cycle) }, (known) =>
    kernelShare(known, 'controller'),
  );
