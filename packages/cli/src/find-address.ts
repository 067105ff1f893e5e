// What an address means in an assessment: a finding, a number, a value that is missing, a place of the file, or several.
import {
  type Assessment,
  addressOf,
  explain,
  type FindingJson,
  numbersOf,
  type Place,
  print,
  type Quantity,
  reportJson,
  type Working,
  walk,
} from '@layshaft/core';
import { offered } from './offered.ts';

export type Meaning =
  | {
      readonly kind: 'finding';
      readonly finding: FindingJson;
      /** Of its margin; of its demand or capacity when no margin is known; absent for yes or no. */
      readonly working?: Working;
      readonly reserve?: Working;
      /** What an answer by yes or no is about. */
      readonly about?: Working;
    }
  | { readonly kind: 'number'; readonly working: Working; readonly findings: readonly string[] }
  | { readonly kind: 'missing'; readonly lack: FindingJson['lacks'][number]; readonly findings: readonly string[] }
  | { readonly kind: 'text'; readonly path: string; readonly place: Place }
  | { readonly kind: 'several'; readonly addresses: readonly { readonly address: string; readonly text: string }[] }
  | { readonly kind: 'nothing'; readonly near: readonly string[] };

/** The address itself goes first, then what it is the start of. `findings` are the addresses of those that rest on it. */
export function findAddress(assessment: Assessment, address: string): Meaning {
  const { findings } = reportJson(assessment);
  const numbers = numbersOf(assessment);
  const working = (of: string): Working | undefined => (numbers.has(of) ? explain(assessment, of) : undefined);
  const missing = (lack: FindingJson['lacks'][number]): Meaning => {
    const waiting = findings.filter((each) => each.lacks.some(({ path }) => path === lack.path));
    return { kind: 'missing', lack, findings: waiting.map((each) => each.address) };
  };
  const finding = findings.find((each) => each.address === address);
  const lack = findings.flatMap((each) => each.lacks).find((each) => each.path === address);
  const place = assessment.design.machine.where(address);
  if (finding !== undefined) {
    const exact = working(address);
    const reserve = finding.reserve && working(finding.reserve.address);
    const about = exact === undefined && finding.verdict !== 'unknown' ? working(finding.path) : undefined;
    return {
      kind: 'finding',
      finding,
      ...(exact && { working: exact }),
      ...(reserve && { reserve }),
      ...(about && { about }),
    };
  }
  if (lack !== undefined) return missing(lack);
  // Beside the numbers that findings rest on, there are those that are only shown.
  const exact = explain(assessment, address);
  if (exact !== undefined) {
    const rests = findings.filter((each) => {
      const number = numbers.get(each.address);
      return each.reserve?.address === address || (number !== undefined && restsOn(number, address));
    });
    return { kind: 'number', working: exact, findings: rests.map((each) => each.address) };
  }
  const texts = new Map([...numbers].map(([key, number]) => [key, print(number)]));
  for (const each of findings) texts.set(each.address, each.verdict);
  const starts = [...texts].filter(([key]) => key.startsWith(address) && /^[.@]/.test(key.slice(address.length)));
  if (starts.length === 1) return findAddress(assessment, starts[0]![0]);
  // A measurement lacks what its date or its count lacks.
  const inside = findings.flatMap(({ lacks }) => lacks).find(({ path }) => path.startsWith(`${address}.`));
  if (starts.length === 0 && inside !== undefined) return missing(inside);
  if (starts.length > 1) return { kind: 'several', addresses: starts.map(([key, text]) => ({ address: key, text })) };
  if (place !== undefined) return { kind: 'text', path: address, place };
  return { kind: 'nothing', near: offered(address, [...texts.keys()]) };
}

function restsOn(number: Quantity, address: string): boolean {
  let found = false;
  walk(number, (each) => {
    found ||= addressOf(each) === address;
  });
  return found;
}
