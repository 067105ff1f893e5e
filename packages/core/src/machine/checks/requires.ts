// catalogue.requires: is everything there that a part needs beside it?
import type { YesNoCheck } from '../../checks/check.ts';
import type { Requirement } from '../../reading/parts.ts';
import { Missing } from '../../working/missing.ts';

/** A part that the machine uses, at one or more places, with the version that is in use. */
export interface UsedPart {
  readonly name: string;
  readonly path: string;
  readonly version: string | Missing;
  readonly requires: readonly Requirement[];
}

export interface Needs {
  readonly part: UsedPart;
  readonly used: readonly UsedPart[];
}

export const requires: YesNoCheck<Needs> = {
  id: 'catalogue.requires',
  title: 'Required beside it',
  asks: 'Is every part there that this part requires, in the version that it requires?',
  page: `A catalogue may state that a part needs others beside it, and from which version on. The version in use is the one
that the machine file states at the part (\`{ part: controller_m, version: 2.1 }\`), else the one that the catalogue states.
Versions are compared number by number: 2.10 comes after 2.9.`,
  advice: 'the part that the answer names, in a version new enough',
  name: ({ part }) => part.name,
  path: ({ part }) => part.path,
  answer: ({ part, used }) => {
    const answers = part.requires.map((wanted) => shortfall(wanted, used));
    const broken = answers.filter((each) => typeof each === 'string');
    if (broken.length > 0) return { yes: false, because: `${part.name} requires ${broken.join('; and ')}` };
    const unknown = answers.filter((each) => each instanceof Missing);
    if (unknown.length > 0) return new Missing(unknown.flatMap(({ lacks }) => lacks));
    return {
      yes: true,
      because: `${part.requires.map(named).join(' and ')} ${part.requires.length > 1 ? 'are' : 'is'} there`,
    };
  },
};

/** What is wrong with the uses of a required part, in words; missing where a version is. */
function shortfall({ part, version }: Requirement, used: readonly UsedPart[]): string | Missing | undefined {
  const found = used.filter((each) => each.name === part);
  if (found.length === 0) return `${named({ part, version })}, which the machine does not use`;
  if (version === undefined) return undefined;
  const older = found.flatMap((each) =>
    !(each.version instanceof Missing) && compareVersions(each.version, version) < 0
      ? [`${each.path} has version ${each.version}`]
      : [],
  );
  if (older.length > 0) return `${named({ part, version })}, while ${older.join(' and ')}`;
  // A catalogue that states no version leaves it to the machine file.
  const lacks = found.flatMap(({ path, version: missing }) =>
    missing instanceof Missing ? missing.lacks.map((lack) => ({ ...lack, path: `${path}.version` })) : [],
  );
  return lacks.length > 0 ? new Missing(lacks) : undefined;
}

const named = ({ part, version }: Requirement): string =>
  version === undefined ? part : `${part} of version ${version} or later`;

/** Negative when `a` comes before `b`; missing numbers count as 0. */
export function compareVersions(a: string, b: string): number {
  const [left, right] = [a, b].map((version) => version.split('.').map((each) => Number.parseInt(each, 10) || 0));
  for (let index = 0; index < Math.max(left!.length, right!.length); index++) {
    const difference = (left![index] ?? 0) - (right![index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
