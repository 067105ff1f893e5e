// Each part of time by itself is a whole file: tasks, one chain, or memory alone.
import { demonstration } from '@layshaft/catalogue';
import { expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { chapters } from '../assess/chapters.ts';
import { show } from '../assess/show.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';

const assessed = (text: string) => {
  const design = resolve(read(`layshaft: 1\n${text}`), [demonstration()]);
  expect(design.problems).toEqual([]);
  return assess(design);
};
const told = (text: string) => {
  const assessment = assessed(text);
  const [chapter, ...others] = chapters(assessment);
  expect(others).toEqual([]);
  expect(chapter!.title).toBe('Timing');
  return {
    gist: chapter!.gist.map((cell) => (cell instanceof Quantity ? print(cell) : cell)).join(''),
    views: chapter!.views.map(({ address }) => address),
    findings: assessment.findings.map(({ address, verdict }) => `${address} ${verdict}`),
    assessment,
  };
};

it('tasks alone: their responses and the load of their core', () => {
  const { gist, views, findings } = told('tasks: { fast: { every: 4 ms, takes: 1 ms, priority: 1 } }\n');
  expect(gist).toBe('tasks take 25 % of their core');
  expect(views).toEqual(['timing', 'tasks.fast']);
  expect(findings).toEqual(['timing.load@main holds', 'timing.response@fast holds']);
});

it('one chain alone: its delay, and its way at a speed that it says itself', () => {
  const { gist, views, findings } = told(
    'chains: { it: { from: { delay: 1 ms }, through: [{ every: 4 ms, takes: 2 ms }], to: { delay: 8 ms }, within: 20 mm, speed: 1 m/s } }\n',
  );
  expect(gist).toBe('it takes up to 15 ms');
  expect(views).toEqual(['timing', 'chains.it']);
  expect(findings).toEqual(['timing.chain@it holds']);
});

it('memory alone: what is taken, against what the controller states where one is named', () => {
  const text = 'memory: { retained: 24000 octets, logs: 8000000 octets }\n';
  const bare = told(text);
  expect(bare.gist).toBe('the program keeps 24000 octets of variables that last and 8000000 octets of logs');
  expect(bare.views).toEqual(['timing', 'memory']);
  expect(bare.findings).toEqual(['timing.memory@logs unknown', 'timing.memory@retained unknown']);
  const [finding] = bare.assessment.findings;
  expect(finding!.lacks.map(({ path }) => path)).toEqual(['controller']);
  const [view] = show(bare.assessment, 'memory');
  expect(view!.tables[0]!.rows.map(([title]) => title)).toEqual(['variables that last', 'logs']);
  const named = told(`${text}catalogue: [demonstration]\ncontroller: controller_m\n`);
  expect(named.findings.every((each) => !each.endsWith('unknown'))).toBe(true);
});
