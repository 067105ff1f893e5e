// What --help teaches: a machine file, how a bar reads, the exit status.
import { marginBar } from '@layshaft/core';
import { printBar } from './print-bar.ts';

/** A whole machine file with demonstration parts; a test checks it. */
export const exampleMachine = `layshaft: 1
axes: { infeed: { drive: drive_5 }, outfeed: { drive: drive_10 } }
controller: controller_m
networks: { drives: { port: 1, profile: polled_100, cycle: 500 µs, runs: [
  [controller, infeed, 2 m, solid],
  [infeed, outfeed, 5 m, solid] ] } }
`;

export const programHelp = `A machine file is plain text: what the machine has, how it is wired, what it
must do. Every value carries its unit; it may also be open or unknown. What is
left out and has a usual value is assumed, and listed as assumed. Two axes on
one network, served every 500 µs:

${exampleMachine.replace(/^(?=.)/gm, '  ').trimEnd()}

Save it as machine.yaml (or let layshaft new write a longer one), then ask:

  layshaft check machine.yaml                          will it hold?
  layshaft explain machine.yaml networks.cycle@drives  why?
  layshaft show machine.yaml networks.drives           what is in it, what fits?
  layshaft show machine.yaml networks.drives --picture cycle --svg cycle.svg
  layshaft simulate . --cycles 1e7                     every frame under noise
  layshaft open                                        all of it in a browser

drive_5, polled_100, solid and so on are demonstration parts, invented for
trying things out; layshaft parts lists them. Your own parts stand in a file
that the machine file names; layshaft parts --help shows one.

Exit status of every command:
  0  nothing fails and nothing is unknown
  1  check: something fails; with --fail-on thin also when something is thin;
     choose: nothing that the catalogues have will do
  2  the file has problems or cannot be read, or the command is not understood
  3  check: nothing fails, but something is unknown because a value is missing;
     simulate: the same, so that nothing can be played
  130  ended by Ctrl+C; simulate prints what was done by then

More is in the folders docs and examples that come with Layshaft.`;

const bar = (demand: number, verdict: string): string =>
  printBar(marginBar({ demand: { value: demand }, capacity: { value: 1 }, reserve: { value: 0.25 } }), verdict);

export const barHelp = `How to read a bar:
  ${bar(0.5, 'holds')}  holds    the line is needed, the rail is there
  ${bar(0.85, 'thin')}  thin     the reserve begins at ▼ and is not kept
  ${bar(1.05, 'fails')}  fails    more is needed than is there; ►► far more
  ${bar(0.5, 'unknown')}  unknown  a value is missing

The figure beside it is the margin: the share of what is there that is left. The
address below it, at the right, is what layshaft explain takes.`;

export const showHelp = `What has an address:
  margins                      all findings, tightest first
  axes.NAME                    what an axis asks of its motor, and its course
  masters.NAME, buses.NAME     what axes follow, and what feeds their drives
  networks.NAME                the cycle to scale, the wiring, how much fits
  networks.NAME.noise          what noise costs, and how long until a trip
  networks.NAME.nodes.NODE     one station, or one hub or switch
  networks.NAME.runs.FROM_TO   one cable
  timing                       all tasks, chains and updates
  tasks.NAME, chains.NAME      one task, one chain from a cause to its effect
  marks.NAME                   what a mark scatters by, and what to improve
  racks, racks.NAME            racks with their points, channels and parts
  racks.NAME.4                 the module at place 4, with its terminals
  racks.NAME.wiring            wires, terminals and designations
  points.NAME                  one point and its channel
A section without a name, such as axes or chains, shows all that it has.`;

export const addressHelp = `An address is, for example:
  networks.cycle@drives        a finding; layshaft check prints it at the right
  networks.cycle.used@drives   a number of an explanation
  axes.infeed.drive.command    a value of the file or of a part, by its path
  networks.drives              the start of several: they are listed

Under each formula stands what it is proven by. C10, E1, F5 and the like are
published cases, listed at the end of docs/reference/formulas.md; words are the
title of a test that finds the same by a second method.`;

/** A whole catalogue; a test reads it. */
export const exampleCatalogue = `layshaft_catalogue: 1
source: our data sheets
parts:
  our_drive:
    kind: drive
    title: Servo drive of our store
    cost: 700
    condition: 0 to 40 °C
    turnaround: { typical: 1.5 µs, at_most: 2 µs }
    forwarding: 300 ns
    waits: 0 octets
    command: 24 octets
    answer: 28 octets
    plugs: 2
    requires: [{ part: controller_m, version: 2.0 }]
`;

export const catalogueHelp = `A catalogue of your own is a file such as

${exampleCatalogue.replace(/^(?=.)/gm, '  ').trimEnd()}

Save it as our_parts.yaml beside the machine file and name it there:

  catalogue: [demonstration, our_parts.yaml]

A later catalogue replaces parts of the same name in an earlier one. Without the
word demonstration the demonstration parts are not used. What a part requires
beside it is checked.`;

/** A list of points; a test reads it. */
export const exampleTable = `Tag;Signal type;Location;Load current [A];Range;Cable length (m);Comment
LS-101;DI;main;;;12,5;Lid 1 closed
YV-101;24V output;main;0,5;;7;Reject valve
PT-7;AI;rack_o;;4-20 mA;30;Tension
`;

export const pointsHelp = `A list of points as it comes out of a spreadsheet, saved as points.csv:

${exampleTable.replace(/^(?=.)/gm, '  ').trimEnd()}

Commas, semicolons or tabs part its cells; its columns have any order and any of
the usual names, with a unit in the head or in the cells. LS-101 becomes ls_101,
and layshaft points points.csv tells what else was changed or left out. Then
either write the points into a machine file:

  layshaft points points.csv --write machine.yaml

or let the machine file name the table, which is then read with it every time:

  points_from: [points.csv]

layshaft points machine.yaml --csv prints the points of a machine as a list.
All names of columns and kinds: docs/reference/points.md.`;

export const openHelp = `It prints an address to open in a browser, and ends with Ctrl+C. The sheet shows
the machine files (.yaml, .yml) of the folder and of the folders in it; hidden
ones, node_modules and expected are passed over. What you change in the browser
is saved to the file, never over what another program wrote meanwhile, and every
text that a file has had stays in .layshaft/history. Nothing leaves this
computer, unless --host lets others in. More: docs/guides/open.md.`;

export const simulateHelp = `Noise has to be said in the file, for example

  networks: { drives: { noise: { bit_errors: 1e-10, trip_after: 3 } } }

Where errors are that rare, --skip-ahead plays 1e10 cycles in seconds: the same
in distribution. Pulses and a line of two states come in bunches and cannot be
jumped over; --only bit_errors leaves them out.

The table of trips says in which cycle each was. What passed the port before is
written into a file that programs for captures read: times, lengths and order as
played; addresses and data invented; what was lost, in the comment of its frame.

  layshaft simulate . --capture trip.pcapng --from 4218 --for 5

A simulation is an estimate for qualified people, and no proof that a stop or a
guard works in time.`;
