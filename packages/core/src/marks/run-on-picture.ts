// The picture of a lost mark: the web that runs from the last good mark until it stands, against what is allowed.
import { type Drawn, notDrawn, pen } from '../pictures/picture.ts';
import { given, Missing } from '../working/missing.ts';
import type { Lost } from './captured.ts';
import { caution } from './checks/run-on.ts';
import type { PlacedMark } from './mark.ts';

export function runOnPicture(mark: PlacedMark, lost: Lost): Drawn {
  const name = 'run_on';
  const title = `When marks of ${mark.name} are lost`;
  const asked = given(
    { s: mark.spacing, noticed: lost.noticedWeb, stop: lost.stopWeb, all: lost.runOn },
    (known) => known,
  );
  if (asked instanceof Missing)
    return { picture: notDrawn(name, title, 'How far the web runs is not known yet.'), numbers: [] };
  const { numbers, write } = pen();
  const { s, noticed, stop, all } = asked;
  const allowed = lost.allowed === undefined || lost.allowed instanceof Missing ? undefined : lost.allowed;
  const [spacing, seen, halt, whole] = [write(s), write(noticed), write(stop), write(all)];
  const limit = allowed && write(allowed);
  const end = 1.05 * Math.max(all.value, allowed?.value ?? 0);
  const until = s.value + noticed.value;
  return {
    picture: {
      name,
      title,
      caption: `From the last good mark on. Caution: ${caution}.`,
      scale: { from: 0, to: end, unit: 'm' },
      rows: [
        { height: 1.5, label: ['web'], end: [whole] },
        { height: 1, ticks: true },
        { height: 1, above: 0.25 },
        { height: 1, above: 0.25 },
      ],
      marks: [
        { kind: 'bar', row: 0, from: 0, to: s.value, high: [0.2, 0.8], fill: 'outlined', tone: 'traffic' },
        { kind: 'bar', row: 0, from: s.value, to: until, high: [0.2, 0.8], fill: 'hatched', tone: 'traffic' },
        { kind: 'bar', row: 0, from: until, to: all.value, high: [0.2, 0.8], fill: 'tinted', tone: 'traffic' },
        ...(allowed === undefined
          ? []
          : [
              {
                kind: 'line' as const,
                weight: 'rail' as const,
                tone: 'plain' as const,
                points: [0, 1].map((y) => ({ x: allowed.value, row: 0, y })),
              },
            ]),
        { kind: 'measure', row: 2, from: 0, to: all.value, forms: [['run-on ', whole], [whole]] },
        ...(allowed === undefined || allowed.value <= all.value
          ? []
          : [{ kind: 'measure' as const, row: 3, from: 0, to: allowed.value, forms: [['allowed ', limit!]] }]),
      ],
      legend: [
        { fill: 'outlined', tone: 'traffic', means: 'to the first lost mark' },
        { fill: 'hatched', tone: 'traffic', means: 'until it is noticed' },
        { fill: 'tinted', tone: 'traffic', means: 'until the web stands' },
      ],
      text: [
        ['To the first lost mark ', spacing, ', until it is noticed ', seen, ', until the web stands ', halt, '.'],
        ['Together ', whole, ...(limit ? ['; allowed are ', limit] : []), '.'],
        [`Caution: ${caution}.`],
      ],
    },
    numbers,
  };
}
