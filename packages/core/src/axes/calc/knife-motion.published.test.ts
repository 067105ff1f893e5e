// The motion of a rotary knife against a published example; the working zone and the law are not in it.
import { expect, it } from 'vitest';
import { knifeMotion } from './knife-motion.ts';
import { lawNames } from './motion-law.ts';
import { chain, span_s, stateAt, stateOf } from './segment.ts';

const inch = 0.0254;
const web_m_per_s = 20 * inch;
const rpm = 30 / Math.PI;

it.each(lawNames)(
  'W7 (read): a trade article on rotary knives, 2022: 3 in, one blade, 20 in/s: 127.3 rpm in the cut, and all round only at 9.42 in; 0.2355 s for 4.71 in: %s',
  (recover) => {
    const cut = (length_in: number) =>
      chain(
        knifeMotion({
          circumference: Math.PI * 3 * inch,
          blades: 1,
          working_rad: 1,
          recover,
          cutLength: length_in * inch,
        }),
      );
    const speed_rpm = (length_in: number, share: number) =>
      stateAt(cut(length_in), share * length_in * inch).velocity * web_m_per_s * rpm;
    for (const length_in of [4.71, 9.42, 15]) {
      expect(speed_rpm(length_in, 0)).toBeCloseTo(127.3, 1);
      expect(speed_rpm(length_in, 1)).toBeCloseTo(127.3, 1);
    }
    // 9.42 in are 0.05 % less than 3·π in. The recovery, 84 % of them, makes up for it, with a peak of 2.2 times as much at
    // most: 0.14 %.
    expect(Math.abs(speed_rpm(9.42, 0.5) / speed_rpm(9.42, 0) - 1)).toBeLessThan(0.0014);
    const short = cut(4.71);
    expect(span_s(short) / web_m_per_s).toBeCloseTo(0.2355, 4);
    const end = short.at(-1)!;
    // On the mean twice as fast: the whole turn in half of the synchronous length.
    expect(((stateOf(end, end.duration_s).position / (span_s(short) / web_m_per_s)) * rpm) / 127.3).toBeCloseTo(2, 2);
    expect(speed_rpm(4.71, 0.5)).toBeGreaterThan(2 * 127.3);
  },
);
