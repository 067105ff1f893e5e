// A finding that is asked for alone is the one of the whole assessment.
import { describe, expect, it } from 'vitest';
import { assessText, exampleMachines, hasNetworks } from '../../../../tests/support/examples.ts';
import type { Finding } from '../checks/finding.ts';
import { assess } from './assess.ts';

const told = ({ address, verdict, demand, capacity, margin, reserve, says }: Finding) => [
  address,
  verdict,
  demand?.value,
  capacity?.value,
  margin?.value,
  reserve?.value,
  says,
];

describe.each(exampleMachines().filter(hasNetworks))('of $name', ({ text, path }) => {
  const whole = assessText(text, path);

  it('the only finding that is asked for is that of the whole', () => {
    expect(whole.findings.length).toBeGreaterThan(10);
    // One of each check stands for all.
    const kinds = new Map(whole.findings.map((finding) => [finding.check, finding]));
    for (const finding of kinds.values()) {
      const alone = assess(whole.design, { only: finding.address }).findings;
      expect(alone.every(({ check }) => check === finding.check)).toBe(true);
      expect(told(alone.find(({ address }) => address === finding.address)!)).toEqual(told(finding));
    }
  });

  it('what it does not rest on is left out', () => {
    const cycle = whole.findings.find(({ check }) => check === 'networks.cycle')!;
    expect(assess(whole.design, { only: cycle.address }).axes).toEqual([]);
    const torque = whole.findings.find(({ check }) => check === 'axes.torque_peak')!;
    const { axes, networks } = assess(whole.design, { only: torque.address });
    expect(axes.map(({ axis }) => axis.name)).toEqual([torque.subject]);
    expect(networks).toEqual([]);
  });
});
