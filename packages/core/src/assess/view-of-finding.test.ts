// For every finding the view that it is about: its own, the one that shows its numbers, or the head of its chapter.
import { describe, expect, it } from 'vitest';
import { assessText, exampleMachines } from '../../../../tests/support/examples.ts';
import { chapters } from './chapters.ts';
import { viewOfFinding } from './view-of-finding.ts';

const { text, path } = exampleMachines().find(({ name }) => name === 'labeller')!;
const assessment = assessText(text, path);
const all = chapters(assessment);

describe('the view that a finding is about', () => {
  it.each([
    ['networks.cycle@drives', 'networks.drives'],
    ['axes.bandwidth@star_wheel', 'axes.star_wheel'],
    ['timing.chain@reject', 'chains.reject'],
    ['marks.budget@label_gap', 'marks.label_gap'],
    // A station is an axis, and the burst that it bridges stands in the view of the noise.
    ['networks.burst@outfeed', 'networks.drives.noise'],
    // What one output drives stands in no table that is open: its chapter tells of racks.
    ['racks.output@reject_valve', 'racks'],
    ['networks.kernel@controller', 'networks'],
  ])('%s is shown at %s', (finding, view) => {
    expect(viewOfFinding(assessment, all, finding)).toBe(view);
  });

  it('is on the page for every finding, and for nothing else', () => {
    const places = new Set(all.flatMap(({ domain, views }) => [domain, ...views.map(({ address }) => address)]));
    for (const { address } of assessment.findings)
      expect(places, address).toContain(viewOfFinding(assessment, all, address));
    expect(viewOfFinding(assessment, all, 'networks.cycle.used@drives')).toBeUndefined();
  });
});
