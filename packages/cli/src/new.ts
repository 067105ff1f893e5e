// layshaft new: a machine file to start from.
import { dirname, join } from 'node:path';
import { exit, type Io, UserError } from './io.ts';
import { codeOf, unwritable } from './read-file.ts';

/** A whole machine with comments on every line that has to be changed; a test checks that it holds. */
export const starter = `# A machine file. Lines that begin with # are comments; every number carries its unit.
# Look:  layshaft check FILE      Ask why:  layshaft explain FILE ADDRESS
layshaft: 1

machine:
  name: My machine

# How much shall stay free. Without a line here, a check keeps its printed default.
reserves:
  networks.cycle: 20 %

# Where parts are looked up. Your own go into a file beside this one: layshaft parts --help shows such a file.
catalogue: [demonstration]

# Which motion controller. See: layshaft parts controller
controller: controller_m

# The axes. A drive is a part of a catalogue (layshaft parts drive), or a map of its own figures.
axes:
  infeed:  { drive: drive_5, cycle_at_most: 1 ms }
  main:    { drive: drive_20 }
  outfeed: { like: infeed }            # the same values, unless it gives others

networks:
  drives:
    port: 1
    profile: polled_100                # how stations get their turn: layshaft parts profile
    cycle: 1 ms                        # or open, when it is still to be chosen; then the check says what is needed
    repeats: 2                         # repeats kept in hand in each cycle, for all stations together
    non_cyclic: 512 octets             # room for parameters and diagnosis
    nodes:                             # what is on the network beside the axes
      rack: { part: rack_small, every: 2 cycles }
    runs:                              # from, to, length, cable: outwards from the controller
      - [controller, infeed, 3 m, solid]
      - [infeed, main, 1.5 m, solid]
      - [main, outfeed, 1.5 m, solid]
      - [outfeed, rack, 8 m, flexible]
`;

/** Writes the starter; never over a file that is there. `-` prints it. */
export async function start(named: string, io: Io): Promise<number> {
  if (named === '-') {
    io.stdout.write(starter);
    return exit.fine;
  }
  try {
    await io.writeNew(named, starter);
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw unwritable(named, error);
    throw new UserError(
      `${named} is there already and stays as it is. Give another name: layshaft new ${join(dirname(named), 'another.yaml')}`,
    );
  }
  io.stdout.write(
    `${named} is written. Next: layshaft check ${named}\nChange it in any editor; layshaft schema helps an editor to complete keys.\n`,
  );
  return exit.fine;
}
