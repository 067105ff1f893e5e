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
Versions are compared number by number: 2.10 comes after 2.9.

When it fails: use the part that the answer names, or a version of it that is new enough.`,
  name: ({ part }) => part.name,
  path: ({ part }) => part.path,
  answer: ({ part, used }) => {
    for (const wanted of part.requires) {
      const found = used.filter((each) => each.name === wanted.part);
      if (found.length === 0)
        return { yes: false, because: `${part.name} requires ${named(wanted)}; the machine does not use it` };
      for (const each of found) {
        if (wanted.version === undefined) continue;
        // A catalogue that states no version leaves it to the machine file.
        if (each.version instanceof Missing)
          return new Missing(each.version.lacks.map((lack) => ({ ...lack, path: `${each.path}.version` })));
        if (compareVersions(each.version, wanted.version) < 0) {
          return {
            yes: false,
            because: `${part.name} requires ${named(wanted)}; ${each.path} has version ${each.version}`,
          };
        }
      }
    }
    return {
      yes: true,
      because: `${part.requires.map(named).join(' and ')} ${part.requires.length > 1 ? 'are' : 'is'} there`,
    };
  },
};

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
