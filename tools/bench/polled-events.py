# Every hop, repeat and deadline of a polled line in a general event simulator of a scripting language (SimPy 2, as Debian has it),
# as a baseline for the bench: a process for the controller, an event for each hop of a frame. Ends with 3 where SimPy is not there.
import math
import random
import sys
import time

try:
    from SimPy.Simulation import Process, Simulation, hold
except ImportError:
    sys.exit(3)

stations, repeats, cycles = int(sys.argv[1]), int(sys.argv[4]), int(sys.argv[6])
cycle_ps, frame_loss = float(sys.argv[2]), float(sys.argv[3])
FRAME_PS, HOP_PS = 5_760_000, 500_000
random.seed(1)


class Controller(Process):
    events = made = lost = late = 0
    chances = [-math.expm1(math.log1p(-frame_loss) / (at + 1)) for at in range(stations)]

    def tries(self, station):
        """Plays the hops of a try, there and back; gives whether it was lost."""
        for _ in range(2):
            for _ in range(station + 1):
                yield hold, self, HOP_PS
                self.events += 1
                if random.random() < self.chances[station]:
                    return True
            yield hold, self, FRAME_PS
        return False

    def run(self):
        for cycle in range(cycles):
            failed = []
            for station in range(stations):
                if (yield from self.tries(station)):
                    failed.append(station)
            for _ in range(repeats):
                if not failed:
                    break
                self.made += 1
                if not (yield from self.tries(failed[0])):
                    failed.pop(0)
            self.lost += len(failed)
            end_ps = (cycle + 1) * cycle_ps
            if self.sim.now() > end_ps:
                self.late += 1
            else:
                yield hold, self, end_ps - self.sim.now()


simulation = Simulation()
controller = Controller(sim=simulation)
simulation.activate(controller, controller.run())
start = time.process_time()
simulation.simulate(until=math.inf)
print(f"{time.process_time() - start:.9e} {controller.events} {controller.made} {controller.lost}")
