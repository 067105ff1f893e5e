// Figures of the bench about racks: a thousand points from the text to their wires.
import { pathToFileURL } from 'node:url';
import { demonstration } from '@layshaft/catalogue';
import { assess, chooseRacks, read, resolve, show, writePlanned } from '@layshaft/core';
import { solverInNode } from '@layshaft/solver/node';
import { parseDocument } from 'yaml';
import { thousandPoints } from '../../tests/support/thousand-points.ts';
import type { Figure } from './figures.ts';
import { three } from './measure.ts';

const most_s = 5;

/** `script` is the bundle of the solver's thread. What is done once in a session is timed once: nothing is warm. */
export async function rackFigure(script: string): Promise<Figure> {
  const text = thousandPoints();
  const solve = solverInNode({ script: pathToFileURL(script) });
  const parts: string[] = [];
  const timed = async <T>(what: string, of: () => T | Promise<T>): Promise<T> => {
    const start = performance.now();
    const made = await of();
    const taken_s = (performance.now() - start) / 1000;
    all_s += taken_s;
    parts.push(`${what} ${three(taken_s)} s`);
    return made;
  };
  let all_s = 0;
  const design = await timed('read', () => resolve(read(text), [demonstration()]));
  const found = await timed('packed', () => chooseRacks(design, solve));
  const assessment = await timed('written and read again', () => {
    const written = writePlanned(read(text), found.planned);
    if (written.kind !== 'edits') throw new Error(`The choice was not written: ${written.kind}.`);
    return assess(resolve(written.machine, [demonstration()]));
  });
  const wires = await timed('wired', () =>
    show(assessment, 'racks').flatMap(({ later }) =>
      later.flatMap(({ name, make }) => (name === 'wires' ? make().rows : [])),
    ),
  );
  const placed = assessment.racks.locations.reduce((sum, location) => sum + location.placed.length, 0);
  if (placed !== 1000 || wires.length < 2000)
    throw new Error(`${placed} points are placed, with ${wires.length} wires.`);
  const start = performance.now();
  parseDocument(text);
  return {
    what: `a thousand points at 4 stations: ${parts.join(', ')}`,
    measured: `${three(all_s)} s`,
    baseline: 'parsing its YAML',
    ratio: (all_s * 1000) / (performance.now() - start),
    aim: { text: `under ${most_s} s`, kept: all_s < most_s },
  };
}
