// The sentences in which something is counted.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../../tests/support/examples.ts';

const machine = (axes: number, more = ''): string => {
  const names = Array.from({ length: axes }, (_, at) => `a${at + 1}`);
  return `layshaft: 1
axes: { ${names.map((name) => `${name}: { drive: drive_5 }`).join(', ')} }
controller: controller_m
networks: { n: { port: 1, profile: { part: polled_100${more} }, cycle: 500 µs, runs: [
${names.map((name, at) => `  [${at === 0 ? 'controller' : names[at - 1]}, ${name}, 2 m, solid]`).join(',\n')} ] } }
`;
};
const says = (text: string, address: string): string | undefined =>
  assessText(text, 'm.yaml').findings.find((finding) => finding.address === address)?.says;

describe('a count of one', () => {
  it.each([
    ['networks.stations@n', '1 of 60 stations is taken', '2 of 60 stations are taken'],
    ['networks.addresses@n', '1 station, 239 addresses', '2 stations, 239 addresses'],
    [
      'networks.hops@n',
      'the farthest station is behind 0 devices, 60 are allowed',
      'the farthest station is behind 1 device, 60 are allowed',
    ],
  ])('is singular in %s', (address, one, two) => {
    expect(says(machine(1), address)).toBe(one);
    expect(says(machine(2), address)).toBe(two);
  });

  it('is singular in what is allowed', () => {
    const limits = ', stations_at_most: 1, hops_at_most: 1, addresses: { from: 1, to: 1, taken_by_the_network: [] }';
    expect(says(machine(1, limits), 'networks.stations@n')).toMatch(/^1 of 1 station is taken/);
    expect(says(machine(3, limits), 'networks.hops@n')).toBe('the farthest station is behind 2 devices, 1 is allowed');
    expect(says(machine(1, limits), 'networks.addresses@n')).toBe('1 station, 1 address');
    expect(says(machine(3, limits), 'networks.addresses@n')).toBe('3 stations need an address each, there is 1');
  });

  it('is singular of plugs, runs and ports', () => {
    const one = machine(2).replace('a1: { drive: drive_5 }', 'a1: { drive: { part: drive_5, plugs: 1 } }');
    expect(says(one, 'networks.plugs@n')).toBe('a1 has 2 runs and 1 plug');
    const port = machine(1).replace('controller_m', '{ part: controller_m, ports: 1 }').replace('port: 1', 'port: 2');
    expect(says(port, 'networks.port@port_2')).toBe('n: the controller has 1 port for networks, port 2 is asked for');
  });
});
