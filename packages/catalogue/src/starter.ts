// The machine file that one starts from, with demonstration parts.

/** A whole machine with comments on every line that has to be changed; a test checks that it holds. */
export const starter = `# A machine file. Lines that begin with # are comments; every number carries its unit.
# In the sheet, Ctrl+Space offers what may stand at the cursor. In a terminal, look with: layshaft check FILE
layshaft: 1

machine:
  name: My machine

# How much shall stay free. Without a line here, a check keeps its printed default.
reserves:
  networks.cycle: 20 %

# Where parts are looked up. Your own go into a file beside this one: layshaft parts --help shows such a file.
catalogue: [demonstration]

# Which motion controller. Ctrl+Space behind the colon lists them, or in a terminal: layshaft parts controller
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
    non_cyclic: 512 octets             # the whole frame for parameters and diagnosis, once in each cycle
    nodes:                             # what is on the network beside the axes: racks, hubs, switches
      rack: { part: rack_small, every: 2 cycles }
    runs:                              # from, to, length, cable: outwards from the controller
      - [controller, infeed, 3 m, solid]
      - [infeed, main, 1.5 m, solid]
      - [main, outfeed, 1.5 m, solid]
      - [outfeed, rack, 8 m, flexible]
`;

/** The same for a machine of this name. */
export const starterFor = (name: string): string =>
  starter.replace('name: My machine', `name: ${/^[\p{L}][\p{L}\p{N} _-]*$/u.test(name) ? name : JSON.stringify(name)}`);
