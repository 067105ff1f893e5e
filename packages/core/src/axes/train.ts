// From the elements of a train, as the file tells them, to the stages of its line.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { elementOf } from './elements.ts';
import type { Friction, Line, PlacedElement, Stage, Transform } from './line.ts';
import type { ElementSection } from './section.ts';

interface Draft {
  side: 'm' | 'rad';
  names: string[];
  inertias: Quantity[];
  constants: Quantity[];
  frictions: Friction[];
  placed: PlacedElement[];
  springs: Quantity<'N·m/rad'>[];
  told: Stage['told'][number][];
}

const draft = (side: 'm' | 'rad', name?: string): Draft => ({
  side,
  names: name === undefined ? [] : [name],
  inertias: [],
  constants: [],
  frictions: [],
  placed: [],
  springs: [],
  told: [],
});

const finished = ({ names, ...rest }: Draft, transform: Transform | undefined): Stage => ({
  ...rest,
  name: names.length === 0 ? 'the shaft' : names.join(', '),
  transform,
});

/** What stands before the file's own elements: the roll of a winder. */
export interface Before {
  readonly constants: readonly Quantity[];
  readonly transform: Transform;
  readonly inertias: readonly Quantity[];
}

/** The line of an axis, without the motor; `unit` is that of the tool. */
export function lineOf(axis: Axis, unit: 'm' | 'rad', gravity: Quantity<'m/s²'>, before?: Before): Value<Line> {
  return given({ train: axis.train, lossesOn: axis.lossesOn }, ({ lossesOn }) => {
    const stages: Stage[] = [];
    let current = draft(unit);
    if (before !== undefined) {
      current.names.push('web');
      current.constants.push(...before.constants);
      stages.push(finished(current, before.transform));
      current = draft('rad', 'roll of web');
      current.inertias.push(...before.inertias);
    }
    for (const [index, element] of (axis.train as readonly ElementSection[]).entries()) {
      if (element.kind instanceof Missing) return element.kind;
      const path = `${element.path}.${element.kind}`;
      const about = `${axis.name}.${index + 1}_${element.kind}`;
      const misfit = misfitOf(element, path, current.side, stages.length === 0);
      if (misfit !== undefined) return misfit;
      const brought = elementOf(element, { path, about, side: current.side, gravity });
      if (brought instanceof Missing) return brought;
      current.names.push(element.kind);
      current.inertias.push(...(brought.inertias ?? []));
      current.constants.push(...(brought.constants ?? []));
      current.frictions.push(...(brought.frictions ?? []));
      current.placed.push(...(brought.placed ?? []));
      current.springs.push(...(brought.springs ?? []));
      current.told.push(...(brought.told ?? []));
      if (brought.transform !== undefined) {
        stages.push(finished(current, brought.transform));
        current = draft('rad');
        current.inertias.push(...(brought.behind ?? []));
        current.springs.push(...(brought.springsBehind ?? []));
      }
    }
    if (current.side === 'm')
      return missing(
        axis.train instanceof Missing
          ? `${axis.path}.train`
          : `${axis.path}.train.${(axis.train as readonly unknown[]).length}`,
        'absent',
        'an element that turns along the way into turns',
        'belt: { diameter: 50 mm, wheel_mass: 0.5 kg }',
      );
    return { stages: [...stages, finished(current, undefined)], lossesOn };
  }) as Value<Line>;
}

const alongOnly = ['slide', 'web', 'force', 'screw', 'belt', 'conveyor', 'rack', 'drum', 'roll'];
const turningOnly = [
  'torque',
  'cutting',
  'cylinder',
  'disc',
  'inertia',
  'off_centre',
  'crank',
  'eccentric',
  'gear',
  'coupling',
];
const atTheTool = ['cutting', 'off_centre', 'crank', 'eccentric'];
const windowKeys = ['from', 'to', 'after', 'until'] as const;

/** Why an element cannot sit where it stands. */
function misfitOf(element: ElementSection, path: string, side: 'm' | 'rad', atTool: boolean): Missing | undefined {
  const is = element.kind as string;
  if (side === 'm' && turningOnly.includes(is))
    return missing(
      path,
      'problem',
      'an element for a tool that goes along, or first one that turns its way into turns',
      'slide: { mass: 10 kg }',
    );
  if (side === 'rad' && alongOnly.includes(is))
    return missing(
      path,
      'problem',
      'an element for a shaft that turns',
      'cylinder: { diameter: 120 mm, length: 400 mm, material: steel }',
    );
  const windowed = windowKeys.some((key) => (element.force ?? element.torque)?.[key] !== undefined);
  if (!atTool && (windowed || atTheTool.includes(is)))
    return missing(
      path,
      'problem',
      'an element that does not depend on the position, behind a gear or screw',
      'torque: { against: 2 N·m }',
    );
  return undefined;
}
