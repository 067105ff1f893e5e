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

export const programHelp = `A machine file is plain text: what the machine has, how it is wired, what it must
do. Every value carries its unit; it may also be open or unknown. What is left
out and has a usual value is assumed, and listed as assumed. Two axes on one
network, served every 500 µs:

${exampleMachine.replace(/^(?=.)/gm, '  ').trimEnd()}

Save it as machine.yaml (or let layshaft new write a longer one), then ask:

  layshaft check machine.yaml                          will it hold?
  layshaft explain machine.yaml networks.cycle@drives  why?
  layshaft show machine.yaml networks.drives           what is it made of, what more fits?

drive_5, polled_100, solid and so on are demonstration parts, invented for trying
things out. Your own parts stand in a file that the machine file names.

Exit status of every command:
  0  nothing fails and nothing is unknown
  1  check: something fails; with --fail-on thin also when something is thin
  2  the file has problems or cannot be read, or the command is not understood
  3  check: nothing fails, but something is unknown because a value is missing

More is in the folders docs and examples that come with Layshaft.`;

const bar = (demand: number, verdict: string): string =>
  printBar(marginBar({ demand: { value: demand }, capacity: { value: 1 }, reserve: { value: 0.25 } }), verdict);

export const barHelp = `How to read a bar:
  ${bar(0.5, 'holds')}  holds    needed: the line; there: the rail at its right
  ${bar(0.85, 'thin')}  thin     the wanted reserve begins at ▼ and is not kept
  ${bar(1.05, 'fails')}  fails    more is needed than is there; ►► when far more
  ${bar(0.5, 'unknown')}  unknown  a value is missing

The figure beside it is the margin: the share of what is there that is left over.
The address below it, at the right, is what layshaft explain takes.`;
