// Pulses that a task counts, as whole files: which scan they ask for, and what stands between the signal and the task.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { chapters } from '../assess/chapters.ts';
import { numbersOf } from '../assess/numbers.ts';
import { numberShown, show } from '../assess/show.ts';
import { quantitiesIn } from '../checks/view.ts';
import { addressOf } from '../working/quantity.ts';
import { known } from '../working/testing.support.ts';

const wheel = '{ kind: digital_in, pulse_every: 1 in, pulse_speed: 243 ft/min, read_by: scan }';
const file = (point = wheel, task = 'every: 4 ms, takes: 1 ms, priority: 1', more = ''): string =>
  `layshaft: 1\ntasks:\n  scan: { ${task} }\n${more}points: { wheel: ${point} }\n`;
const assessed = (text: string): Assessment => assessText(text, 'machine.yaml');
const finding = (text: string) => assessed(text).findings.find(({ address }) => address === 'timing.pulse@wheel')!;

describe('question 15 as a file: which scan for this pulse rate', () => {
  it('243 ft/min with a pulse per inch: 20.6 ms, there or away for 10.3 ms, by the rules 2 to 4 ms', () => {
    const assessment = assessed(file());
    const [pulses] = assessment.timing.pulses;
    expect(known(pulses!.period) * 1e3).toBeCloseTo(20.6, 1);
    expect(known(pulses!.phase) * 1e3).toBeCloseTo(10.3, 1);
    expect(pulses!.practical.map((each) => Math.round(known(each) * 1e3))).toEqual([4, 2]);
    expect(finding(file())).toMatchObject({ verdict: 'holds', demand: { value: 4e-3 } });
  });

  it('a scan over the rule is thin, one over the phase fails and is told of a hardware counter, which is not asked', () => {
    const every = (time: string): string => file(wheel, `every: ${time}, takes: 1 ms, priority: 1`);
    expect(finding(every('8 ms')).verdict).toBe('thin');
    expect(finding(every('11 ms'))).toMatchObject({
      verdict: 'fails',
      advice: expect.stringContaining('hardware counter'),
    });
    expect(finding(file(wheel.replace('digital_in', 'counter')))).toBeUndefined();
  });

  it('by a master or an angle as well; a mark that is on for a tenth is away for nine', () => {
    const master = (speed: string): string => `masters: { line: { speed: ${speed} } }\n`;
    const turning = finding(
      file('{ kind: digital_in, pulse_every: 36°, pulse_on: 10 % }', undefined, master('60 rpm')),
    );
    expect(turning.capacity!.value).toBeCloseTo(0.01, 12);
    const timed = finding(file('{ kind: digital_in, pulse_every: 50 ms, pulse_on: 90 % }'));
    expect(timed.capacity!.value).toBeCloseTo(5e-3, 12);
    const wrong = finding(file('{ kind: digital_in, pulse_every: 36° }', undefined, master('1 m/s')));
    expect(wrong.lacks.map(({ path }) => path)).toEqual(['points.wheel.pulse_every']);
  });
});

describe('what stands between the signal and the task', () => {
  it('a more urgent task, a task that begins late, and a filter', () => {
    const urgent = '  fast: { every: 2 ms, takes: 0.5 ms, priority: 0 }\n';
    expect(finding(file(wheel, undefined, urgent)).demand!.value).toBeCloseTo(4.5e-3, 12);
    expect(finding(file(wheel, 'every: 4 ms, takes: 1 ms, priority: 1, jitter: 1 ms')).demand!.value).toBeCloseTo(
      5e-3,
      12,
    );
    const slow = finding(file(wheel.replace('}', ', filter: 12 ms }')));
    expect(slow.verdict).toBe('fails');
    expect(slow.says).toContain('its filter lets nothing through under 12 ms');
  });

  it('the network of its station', () => {
    const network = `catalogue: [demonstration]
controller: controller_m
networks:
  n: { port: 1, profile: polled_100, cycle: 1 ms, repeats: 0, non_cyclic: 0 octets, nodes: { rack: { part: rack_small, every: 2 cycles } }, runs: [[controller, rack, 20 m, solid]] }
`;
    const assessment = assessed(file(wheel.replace('}', ', at: rack }'), undefined, network));
    const kernel = known(assessment.timing.cores[0]!.tasks[0]!.takes);
    const { demand } = assessment.findings.find(({ address }) => address === 'timing.pulse@wheel')!;
    // The kernel may come in between before the task begins.
    expect(demand!.value).toBeCloseTo(2e-3 + 4e-3 + kernel, 12);
  });

  it.each([
    ['a speed', wheel.replace('pulse_speed: 243 ft/min, ', ''), undefined, 'points.wheel.pulse_speed'],
    ['a period', wheel, 'events_apart: 4 ms, takes: 1 ms, priority: 1', 'tasks.scan.every'],
    [
      'a reader',
      '{ kind: digital_in, pulse_every: 5 ms }',
      'every: 4 ms, takes: 1 ms, priority: 1 }\n  b: { every: 9 ms, takes: 1 ms, priority: 2',
      'points.wheel.read_by',
    ],
  ])('without %s it is unknown, and says what would settle it', (_, point, task, path) => {
    expect(finding(file(point, task)).lacks.map((lack) => lack.path)).toEqual([path]);
  });
});

it('every number of the table is found by its address, and pulses alone are a chapter', () => {
  const assessment = assessed(file());
  const held = numbersOf(assessment);
  for (const view of show(assessment, 'timing'))
    for (const quantity of quantitiesIn(view)) {
      const address = addressOf(quantity);
      expect((held.get(address) ?? numberShown(assessment, address))?.value, address).toBe(quantity.value);
    }
  const alone = assessed('layshaft: 1\npoints: { wheel: { kind: digital_in, pulse_every: 5 ms } }\n');
  expect(chapters(alone)[0]).toMatchObject({ title: 'Timing', gist: ['pulses of one point'] });
});
