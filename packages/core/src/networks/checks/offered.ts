// networks.offered: can the controller run the cycle that the network asks for?
import { question } from '../../checks/finding.ts';
import { equalWithin } from '../../checks/margin.ts';
import { given, Missing } from '../../working/missing.ts';
import { print } from '../../working/working.ts';
import type { Planned } from '../planned.ts';

export const offered = question<readonly Planned[], Planned>({
  id: 'networks.offered',
  title: 'Cycle offered',
  asks: 'Is the cycle one that the controller can run and the profile allows?',
  page: `A controller runs a few cycles, no others; a profile may state a shortest cycle. Holds when the cycle of the
network is one of the controller's and not shorter than the profile's shortest.`,
  advice: 'a cycle that the answer names, another controller or profile',
  subjects: (networks) => networks,
  name: (planned) => planned.network.name,
  path: (planned) => `${planned.network.path}.cycle`,
  answer: ({ network: { cycle, controller, profile } }) =>
    given({ cycle, cycles: controller.cycles }, (known) => {
      const shortest = profile.cycle_at_least;
      if (!(shortest instanceof Missing) && known.cycle.value < shortest.value * (1 - equalWithin)) {
        return {
          yes: false,
          because: `the profile's shortest cycle is ${print(shortest)}; ${print(known.cycle)} is asked for`,
        };
      }
      const yes = known.cycles.some((each) => Math.abs(each.value - known.cycle.value) <= equalWithin * each.value);
      const because = yes
        ? `the controller offers ${print(known.cycle)}`
        : `the controller does not offer ${print(known.cycle)}; it offers ${known.cycles.map(print).join(', ')}`;
      return { yes, because };
    }),
});
