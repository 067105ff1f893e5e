// Eyes and inputs out of a catalogue: what the mark says goes before the part, a limit counts as anywhere within it.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { Missing } from '../working/missing.ts';
import { isLeaf, type Quantity } from '../working/quantity.ts';

const of = (mark: string) => {
  const assessment = assessText(`layshaft: 1\nmarks: { m: { speed: 2 m/s, spacing: 250 mm, ${mark} } }\n`, 'm.yaml');
  return { ...assessment.marks[0]!, problems: assessment.design.problems.map(({ message }) => message) };
};
type Of = ReturnType<typeof of>;
const parts = ({ known }: Of) =>
  known instanceof Missing
    ? known.lacks.map(({ path }) => path)
    : known.parts.map(({ name, shape, limit }) => [name, shape, limit.value]);
const offsets = ({ known }: Of) =>
  known instanceof Missing ? [] : known.offsets.map(({ name, b }) => [name, b.value]);
const originOf = (value: unknown) => {
  const quantity = value as Quantity;
  return isLeaf(quantity) ? [quantity.about, quantity.by.kind, quantity.by.via] : [];
};

describe('an eye and an input that are parts', () => {
  it('bring delays, limits of what scatters, the step, and when they are armed again', () => {
    const found = of('eye: eye_mark, capture: { part: input_stamping }');
    expect(found.problems).toEqual([]);
    expect(parts(found)).toEqual([
      ['eye_jitter', 'rectangular', 2 * 4e-6],
      ['input_jitter', 'rectangular', 2 * 0.5e-6],
      ['clock_offset', 'rectangular', 2 * 1e-6],
      ['stamp_step', 'rectangular', 1e-6],
    ]);
    expect(offsets(found)).toEqual([
      ['eye_delay', 2 * 30e-6],
      ['input_delay', 2 * 8e-6],
    ]);
    expect(found.captured.caught!.rearm).toMatchObject({ value: 500e-6 });
    expect(originOf(found.mark.said.eye!.delay)).toEqual(['marks.m.eye.delay', 'catalogue', ['part eye_mark']]);
  });

  it('give way to what the mark says itself', () => {
    const found = of(
      'eye: { part: eye_mark, delay: 10 µs, jitter: 1 µs }, capture: { part: input_latching, latched: 8 µm, jitter: { triangular: 2 µs }, rearm: 1 ms }',
    );
    expect(parts(found)).toEqual([
      ['eye_jitter', 'normal', 3 * 2 * 1e-6],
      ['input_jitter', 'triangular', 2 * 2e-6],
      ['latch_count', 'rectangular', 4e-6],
    ]);
    expect(offsets(found)).toEqual([
      ['eye_delay', 2 * 10e-6],
      ['input_delay', 2 * 4e-6],
    ]);
    expect(found.captured.caught!.rearm).toMatchObject({ value: 1e-3 });
  });

  it('delay by the filter of the input, as polling does by half of its period', () => {
    const found = of('capture: { part: input_polled, polled: 4 ms }');
    expect(offsets(found)).toEqual([
      ['input_delay', 2 * 100e-6],
      ['input_filter', 2 * 3e-3],
      ['poll_middle', 4e-3],
    ]);
  });

  it('still need what only the machine can say: the way for one count, the period of the polling', () => {
    expect(parts(of('capture: { part: input_latching }'))).toEqual(['marks.m.capture']);
    expect(of('capture: { part: input_latching }').problems).toEqual([]);
    expect(parts(of('capture: { part: input_latching, polled: 1 ms }')).map(([name]) => name)).toEqual([
      'input_jitter',
      'poll_window',
    ]);
  });

  it('that are open, or that no catalogue has, leave the budget unknown', () => {
    expect(parts(of('eye: open, spread: { x: 1 µm }'))).toEqual(['marks.m.eye']);
    const lost = of('eye: { part: eye_marc }, spread: { x: 1 µm }');
    expect(lost.problems).toEqual([expect.stringMatching(/eye_marc/)]);
    expect(parts(lost)).toEqual(['marks.m.eye.part']);
    const other = of('capture: { part: eye_mark, latched: 5 µm }, spread: { x: 1 µm }');
    expect(other.problems).toEqual([expect.stringMatching(/eye_mark/)]);
    expect(parts(other)).toContain('marks.m.capture.part');
  });

  it('measure a length with what an eye is slower off than on, and its hysteresis', () => {
    const found = of('length: 100 mm, edges: [rising, falling], eye: eye_mark, capture: { part: input_stamping }');
    expect(offsets(found)).toEqual([['eye', 2 * 4e-6 + 40e-6]]);
  });
});
