// Racks chosen on the desk with a solver elsewhere: the models that go out, what comes of their solutions, and what ends it.
import { solveHere } from '@layshaft/solver/here';
import { describe, expect, it } from 'vitest';
import { openDesk } from './desk.ts';
import type { ChoosingAt, Edited, TableAt } from './protocol.ts';

const head = 'layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\ncontroller: controller_m\n';
const points = (many: number) =>
  `points:\n  a_[1..${many}]: { kind: digital_in }\n  b_[1..${many}]: { kind: digital_out, current: 0.2 A }\n`;
const looking = { address: undefined, width_px: 720 };

function opened(text: string) {
  const desk = openDesk();
  const read = (next: string) => desk.read({ file: 'm.yaml', text: next, looking });
  read(text);
  /** As the page does it. */
  const toTheEnd = async (first: Promise<ChoosingAt>) => {
    let at = await first;
    const tasks: object[] = [];
    while (at.kind === 'model') {
      tasks.push(at.task);
      // As it comes out of a message.
      at = await desk.solved({ id: at.id, solution: await solveHere(structuredClone(at.model)) });
    }
    return { ...at, tasks };
  };
  const choose = (prefer: 'cost' | 'width' = 'cost') => toTheEnd(desk.choose({ what: 'racks', prefer }));
  const offered = () =>
    desk
      .look({ looking })
      .chapters.find(({ domain }) => domain === 'racks')
      ?.views.find(({ address }) => address === 'racks')?.choosing;
  return { desk, read, choose, oneMore: () => toTheEnd(desk.choose({ what: 'one more' })), offered };
}

const modelOf = (at: ChoosingAt) => {
  if (at.kind !== 'model') throw new Error('no model');
  return at;
};

/** The text after all edits. */
const applied = (text: string, edited: Edited): string => {
  if (edited.kind !== 'edit') throw new Error(`not an edit but ${edited.kind}`);
  return edited.edits.reduce((now, { from, to, insert }) => now.slice(0, from) + insert + now.slice(to), text);
};

const texts = (table: TableAt | undefined) => table?.rows.map((row) => row.map(({ text }) => text));

describe('racks chosen on the desk', () => {
  it('come to a table that is taken whole, and then nothing is open any more', async () => {
    const text = `${head}racks: open\n${points(8)}`;
    const { desk, choose, oneMore, offered } = opened(text);
    expect(offered()).toMatchObject({ name: 'chosen_racks', title: 'Choose racks' });
    const { became, says, table, tasks } = await choose();
    expect([became, says]).toEqual([
      'done',
      '16 points get their channels; points that have one stay there. It is proven that nothing has a smaller cost.',
    ]);
    expect(tasks[0]).toEqual({ location: 'main', nth: 1, all: 1 });
    expect(texts(table)).toEqual([['main', 'rack_4', 'power_dc', 'either_20', '419', 'the same']]);
    expect(desk.table({ address: 'racks', name: 'chosen_racks' })).toEqual(table);
    const more = await oneMore();
    expect(more.tasks).toContainEqual({ location: 'main', kind: 'digital_out', nth: 2, all: 2 });
    expect(texts(more.table)!.map(([, kind]) => kind)).toEqual(['digital input', 'digital output']);
    const edited = desk.write({ entries: table!.takesAll!, at: undefined, looking });
    const after = applied(text, edited);
    expect(after.startsWith(text)).toBe(true);
    expect(after.match(/^ {2}points\.\w+\.channel: main\.\d+\.\d+$/gm)).toHaveLength(16);
    expect(edited).toMatchObject({ snapshot: { text: after, problems: [] } });
    expect(offered()).toBeUndefined();
    expect((await choose()).says).toContain('Nothing is open in racks');
    expect(desk.table({ address: 'racks', name: 'chosen_racks' })).toBeUndefined();
  });

  it('are those of least width where that is asked, also for what one more would take', async () => {
    const { choose, oneMore } = opened(`${head}racks: open\n${points(20)}`);
    const { table } = await choose('width');
    expect([table!.title, table!.columns.at(-2)]).toEqual(['Racks of the least width', 'width']);
    expect((await oneMore()).table!.columns).toContain('more width');
  });

  it('tell needs that stand against each other, and give nothing to take', async () => {
    const text = `${head}racks: { main: { rack: rack_4, power: power_ac, modules: open } }\n${points(30)}`;
    const { choose, oneMore } = opened(text);
    const { became, says, table } = await choose();
    expect(became).toBe('refused');
    expect(says).toMatch(/^At main these cannot be had together: the 4 places of rack_4 at main; .* is settled\.$/);
    expect(table).toBeUndefined();
    expect(await oneMore()).toMatchObject({ became: 'refused', says: expect.stringContaining('Choose racks first') });
  });

  it('say what lacks before anything is solved', async () => {
    const { choose, offered } = opened(`${head.replace('controller: controller_m\n', '')}racks: open\n${points(2)}`);
    expect(offered()).toBeDefined();
    expect(await choose()).toMatchObject({
      became: 'refused',
      says: expect.stringMatching(/^Nothing can be chosen at racks yet: controller/),
      tasks: [],
    });
  });

  it('that were stopped by the time tell that there may be better', async () => {
    const { desk } = opened(`${head}racks: open\n${points(8)}`);
    const { id, model } = modelOf(await desk.choose({ what: 'racks', prefer: 'cost' }));
    const best = await solveHere(model);
    if (best.status !== 'optimal') throw new Error(best.status);
    const end = await desk.solved({ id, solution: { ...best, status: 'stopped', bound: 100 } });
    expect(end).toMatchObject({
      became: 'done',
      says: expect.stringContaining(
        'At main it is not proven that nothing is better: the cost is 419, none is below 100, a gap of 76.13 %.',
      ),
    });
    expect(end.kind === 'result' && texts(end.table)![0]!.at(-1)).toBe('100');
  });

  it('that were stopped before there was anything for some of them leave these open', async () => {
    const text = `${head}networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, far, 5 m, solid]], nodes: { far: rack_head } } }
racks: open
${points(8)}  c: { kind: digital_in, at: far }
`;
    const { desk, choose, offered } = opened(text);
    const { id, model } = modelOf(await desk.choose({ what: 'racks', prefer: 'cost' }));
    const second = modelOf(await desk.solved({ id, solution: await solveHere(model) }));
    const end = await desk.solved({ id: second.id, solution: { status: 'nothing found' } });
    expect(end).toMatchObject({
      became: 'done',
      says: expect.stringContaining('Nothing was found for far before the search ended; it stays open.'),
    });
    if (end.kind !== 'result') throw new Error(end.kind);
    const edited = desk.write({ entries: end.table!.takesAll!, at: undefined, looking });
    expect(applied(text, edited)).toMatch(/^ {2}racks: \{ main: \{ .* \}, far: open \}$/m);
    expect(edited).toMatchObject({ snapshot: { problems: [] } });
    expect(offered()).toBeDefined();
    const { table } = await choose();
    expect(texts(table)!.map(([rack]) => rack)).toEqual(['far']);
    const whole = desk.write({ entries: table!.takesAll!, at: undefined, looking });
    expect(whole).toMatchObject({ snapshot: { problems: [] } });
    expect(offered()).toBeUndefined();
  });

  it('are not of a text that came after, nor of what was started before', async () => {
    const text = `${head}racks: open\n${points(8)}`;
    const { desk, read, choose } = opened(text);
    const first = modelOf(await desk.choose({ what: 'racks', prefer: 'cost' }));
    const second = modelOf(await desk.choose({ what: 'racks', prefer: 'width' }));
    const solution = await solveHere(first.model);
    expect(await desk.solved({ id: first.id, solution })).toMatchObject({ became: 'stopped' });
    read(text.replace('0.2 A', '0.3 A'));
    const late = await desk.solved({ id: second.id, solution: await solveHere(second.model) });
    expect(late).toMatchObject({ became: 'stopped', says: expect.stringContaining('The file has changed since') });
    expect(desk.table({ address: 'racks', name: 'chosen_racks' })).toBeUndefined();
    expect((await choose()).became).toBe('done');
  });

  it('are offered for a point without a channel, and for nothing else that is done', () => {
    const full = 'racks: { main: { rack: rack_7, power: power_ac, modules: [in_12] } }\n';
    const point = (channel: string) => `points: { a: { kind: digital_in${channel} } }\n`;
    expect(opened(head + full + point('')).offered()).toBeDefined();
    expect(opened(head + full + point(', channel: main.3.1')).offered()).toBeUndefined();
  });

  it('of a thousand points are written within seconds', async () => {
    const text = `${head}racks: open\n${points(500)}`;
    const { desk } = opened(text);
    const entries = Array.from({ length: 1000 }, (_, at) => ({
      path: `planned.points.${at < 500 ? 'a' : 'b'}_${(at % 500) + 1}.channel`,
      value: `main.${at}.1`,
    }));
    const from_ms = performance.now();
    const edited = desk.write({ entries, at: undefined, looking });
    // A splice for each takes a minute.
    expect(performance.now() - from_ms).toBeLessThan(15_000);
    expect(applied(text, edited).match(/^ {2}points\./gm)).toHaveLength(1000);
  });
});
