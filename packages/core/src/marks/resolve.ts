// The marks of the file, each with the line that carries it and what else is captured on its axis.
import type { PartLookUp } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { filled } from './fill.ts';
import type { Mark } from './mark.ts';
import type { MarkSection } from './section.ts';

export type { Mark };

interface AxisOfMark {
  readonly name: string;
  readonly motion: { readonly follow?: Value<{ readonly name: string }> | undefined };
}

export function resolveMarks(
  marks: readonly MarkSection[],
  axes: readonly AxisOfMark[],
  partOf: PartLookUp,
): readonly Mark[] {
  const axisOf = ({ axis }: MarkSection): string | undefined =>
    axis === undefined || axis instanceof Missing ? undefined : axis.name;
  return marks.map((said) => {
    const axis = axisOf(said);
    const together = axis === undefined ? [said] : marks.filter((each) => axisOf(each) === axis);
    const follow = said.follow ?? axes.find(({ name }) => name === axis)?.motion.follow;
    return {
      name: said.name,
      path: said.path,
      said: filled(said, partOf),
      axisName: axis,
      lineName: follow === undefined || follow instanceof Missing ? follow : follow.name,
      edges: together.reduce((sum, each) => sum + edgesOf(each), 0),
    };
  });
}

const edgesOf = ({ length }: MarkSection): number => (length === undefined ? 1 : 2);
