// What may stand under a path, from the schema of the format: how a path falls into keys, in which order, in which style.
import type { JsonSchema } from '../reading/json-schema.ts';
import type { Entry } from '../reading/tree.ts';
import { machineSchema } from './schema.ts';

/** What the format knows of a place; nothing where anything may stand. */
export type Outline = JsonSchema | undefined;

export const wholeFile: Outline = machineSchema();

/** The section whose keys are whole paths. */
const planned: Outline = wholeFile?.properties?.planned;

/** The names of a path; a range in a name has points of its own. */
export const segmentsOf = (path: string): readonly string[] => path.split(/\.(?![^[]*\])/);

/** What may stand under a key, or as an item of a list. */
export function under(outline: Outline, key: string | undefined): Outline {
  const [found] = formsOf(outline).flatMap(({ properties, patternProperties, items }) => {
    if (key === undefined) return items ? [items] : [];
    if (properties !== undefined && Object.hasOwn(properties, key)) return [properties[key]!];
    return Object.values(patternProperties ?? {}).slice(0, 1);
  });
  return found;
}

/** The place of a name in a row of fixed places, such as `from` in a range; -1 where there is none. */
export const placeInRow = (outline: Outline, name: string): number =>
  formsOf(outline).reduce(
    (found, { prefixItems }) => (found < 0 ? (prefixItems ?? []).findIndex(({ title }) => title === name) : found),
    -1,
  );

/**
 * The keys that names of a path stand for, from an outline downwards: a key can have points (`networks.cycle` under
 * `reserves`), and an item of a list has none (undefined). Nothing when they lead into a list that is not there.
 */
export function keysUnder(outline: Outline, segments: readonly string[]): readonly (string | undefined)[] | undefined {
  const [first, ...others] = segments;
  if (first === undefined) return [];
  if (outline === planned) return [segments.join('.')];
  if (isList(outline)) {
    const rest = first === '0' ? keysUnder(under(outline, undefined), others) : undefined;
    return rest && [undefined, ...rest];
  }
  for (let count = segments.length; count > 1; count--) {
    const key = segments.slice(0, count).join('.');
    const known = formsOf(outline).some(({ properties }) => properties !== undefined && Object.hasOwn(properties, key));
    const rest = known ? keysUnder(under(outline, key), segments.slice(count)) : undefined;
    if (rest !== undefined) return [key, ...rest];
  }
  const rest = keysUnder(under(outline, first), others);
  return rest && [first, ...rest];
}

/** Where a new key belongs among entries: behind the last one that stands before it in the order of the format. */
export function placeAmong(entries: readonly Pick<Entry, 'key'>[], key: string, outline: Outline): number {
  const order = formsOf(outline).flatMap(({ properties }) => Object.keys(properties ?? {}));
  const rank = (each: string): number => (order.includes(each) ? order.indexOf(each) : order.length);
  return entries.findLastIndex((each) => rank(each.key) <= rank(key)) + 1;
}

const isList = (outline: Outline): boolean => formsOf(outline).some(({ type }) => type === 'array');

/** Whether a map of a part stands here, so that the part's name alone may stand here too. */
export const takesPart = (outline: Outline): boolean =>
  formsOf(outline).some(({ properties }) => properties?.part !== undefined);

/** Whether the user chooses the keys. */
export const isGroup = (outline: Outline): boolean =>
  formsOf(outline).some(({ patternProperties }) => patternProperties !== undefined);

/**
 * Whether what stands here usually has lines of its own instead of brackets: groups and what holds one, lists of maps
 * or rows, and sections (depth 0) unless a single word may stand there as well.
 */
export function hasLines(outline: Outline, depth: number): boolean {
  if (isGroup(outline) || (depth === 0 && outline?.anyOf === undefined)) return true;
  return formsOf(outline).some(
    ({ properties, items }) =>
      Object.values(properties ?? {}).some(isGroup) ||
      formsOf(items || undefined).some((each) => each.type === 'object' || each.prefixItems !== undefined),
  );
}

const formsOf = (outline: Outline): readonly JsonSchema[] =>
  outline === undefined ? [] : outline.anyOf !== undefined ? outline.anyOf.flatMap(formsOf) : [outline];
