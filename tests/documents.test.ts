// The examples in the documents are files that hold: what a reader copies has no problem.
import { readCatalogue } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { assessText } from './support/examples.ts';
import { repositoryFiles } from './support/files.ts';

const blocks = repositoryFiles()
  .filter(({ path }) => path.endsWith('.md'))
  .flatMap(({ path, text }) =>
    [...text.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map(([, yaml = ''], index) => ({
      name: `${path}, ${index + 1}`,
      yaml,
    })),
  );

describe('examples in documents', () => {
  it('are found', () => {
    expect(blocks.map(({ name }) => name)).toContain('docs/reference/machine-file.md, 1');
  });

  it.each(blocks)('$name has no problem', ({ name, yaml }) => {
    if (yaml.startsWith('layshaft_catalogue:')) {
      expect(readCatalogue(name, [{ file: name, text: yaml }]).problems).toEqual([]);
      return;
    }
    const { design, findings } = assessText(yaml, name);
    expect([...design.problems, ...design.machine.remarks]).toEqual([]);
    expect(findings.filter(({ verdict }) => verdict !== 'holds').map(({ says }) => says)).toEqual([]);
    expect(findings.length).toBeGreaterThan(0);
  });

  it('of the machine file takes what was planned for what is open, and sets one value for many', () => {
    const { yaml } = blocks.find(({ name }) => name === 'docs/reference/machine-file.md, 1')!;
    const { networks } = assessText(yaml, 'm.yaml');
    const { cycle, devices } = networks[0]!.network;
    expect(cycle).toMatchObject({ value: 500e-6, by: { kind: 'planned' } });
    expect(devices.map(({ name, every, cycleAtMost }) => [name, every, cycleAtMost])).toMatchObject([
      ['infeed', undefined, { value: 1e-3 }],
      ['outfeed', undefined, { value: 1e-3 }],
      ['lift', { value: 2 }, undefined],
      ['rack_1', { value: 4 }, undefined],
      ['rack_2', { value: 4 }, undefined],
    ]);
  });
});
