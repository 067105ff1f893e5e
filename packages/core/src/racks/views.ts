// What `show` tells of the racks of a machine: of all of them, and of those at one location.
import type { Cell, Choosing, Input, Table, View } from '../checks/view.ts';
import { capital } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, isLeaf, type Quantity } from '../working/quantity.ts';
import { channelsPicture } from './channels-picture.ts';
import { chosenRacks, oneMorePoint } from './choice-tables.ts';
import { isLeftToChoose } from './choose.ts';
import { kindNames } from './kind-names.ts';
import type { KindOfPoints, PlannedLocation, PlannedRacks } from './planned.ts';
import { rackFace } from './rack-face.ts';
import { modulesTable, type Offered, partsTable, pointsTable, racksTable, spareTable } from './tables.ts';
import { scarcest, type Totals, totalsAt, totalsOf } from './totals.ts';

/** Where the racks of a machine are shown together. */
export const racksAddress = 'racks';

export const hasRacks = ({ locations }: PlannedRacks): boolean => locations.length > 0;

const rackChoosing: Choosing = {
  name: chosenRacks,
  title: 'Choose racks',
  oneMore: { name: oneMorePoint, title: 'One more point of each kind' },
};

export function racksView(planned: PlannedRacks, offered: Offered): View {
  const { locations } = planned;
  const totals = totalsOf(planned);
  return {
    address: racksAddress,
    title: 'Racks',
    says: sentenceOf(racksGist(planned)),
    inputs: inputsOf(totals),
    pictures: drawable(locations) ? [rackFace('The racks from the front', locations)] : [],
    tables: [...tablesOf(locations, totals), ...(drawable(locations) ? [partsTable(locations, offered)] : [])],
    later: [pointsTable(locations)],
    ...(locations.some(isLeftToChoose) && { choosing: rackChoosing }),
  };
}

export function locationView(location: PlannedLocation): View {
  const { name, path } = location.location;
  const totals = totalsAt(location);
  return {
    address: path,
    title: location.racks.length > 1 ? `Racks at ${name}` : `Rack ${name}`,
    says: sentenceOf(gistOf(totals, [location])),
    inputs: inputsOf(totals),
    pictures: drawable([location])
      ? [rackFace(`Rack ${name}`, [location]), channelsPicture(`What sits where at ${name}`, location)]
      : [],
    tables: tablesOf([location], totals),
    later: [pointsTable([location])],
  };
}

const drawable = (locations: readonly PlannedLocation[]): boolean => locations.some(({ racks }) => racks.length > 0);

const tablesOf = (locations: readonly PlannedLocation[], totals: Totals): readonly Table[] => [
  ...(drawable(locations) ? [racksTable(locations.flatMap(({ racks }) => racks)), modulesTable(totals)] : []),
  ...(totals.kinds.length > 0 ? [spareTable(totals)] : []),
];

const sentenceOf = (gist: readonly Cell[]): readonly Cell[] =>
  [...gist, '.'].map((cell, at) => (at === 0 && typeof cell === 'string' ? capital(cell) : cell));

/** The result in a few words: what is carried, and of which kind the least is left. */
export const racksGist = (planned: PlannedRacks): readonly Cell[] => gistOf(totalsOf(planned), planned.locations);

function gistOf(totals: Totals, locations: readonly PlannedLocation[]): readonly Cell[] {
  const { racks, points, carried } = totals;
  const pointWord = points.value === 1 ? ' point' : ' points';
  if (racks.value === 0) return [points, `${pointWord}, and no rack is chosen for them yet`];
  const lead: readonly Cell[] = [racks, racks.value === 1 ? ' rack' : ' racks'];
  if (points.value === 0) return [...lead, ' without a point'];
  const carry = racks.value === 1 ? ' carries ' : ' carry ';
  const what: readonly Cell[] =
    carried.value === points.value
      ? [...lead, carry, points, pointWord]
      : [...lead, carry, carried, ' of ', points, pointWord];
  const least = scarcest(totals);
  return least === undefined
    ? what
    : [...what, '; ', ...leftOf(least.of, least.share as Quantity, locations.length > 1)];
}

const leftOf = ({ kind, location, there }: KindOfPoints, share: Quantity, isOneOfSeveral: boolean): readonly Cell[] => {
  const at = isOneOfSeveral ? ` at ${location}` : '';
  if (share.value < 0 && !(there instanceof Missing))
    return [there, ` ${kindNames[kind]}${there.value === 1 ? ' is' : 's are'} too few${at}`];
  return [share, ` of the ${kindNames[kind]}s${at} are free`];
};

/** The wanted spare, of all kinds or of each that the file has its own for. */
function inputsOf({ kinds }: Totals): readonly Input[] {
  const wanted = new Map<string, Input>();
  for (const { of } of kinds) {
    const spare =
      of.spare instanceof Missing || isLeaf(of.spare) ? of.spare : (of.spare.inputs?.s as Quantity | undefined);
    if (spare === undefined || spare instanceof Missing) continue;
    const path = addressOf(spare);
    const title = path === 'reserves.racks.spare' ? 'Wanted spare' : `Wanted spare, ${kindNames[of.kind]}s`;
    wanted.set(path, { path, title, value: spare, span: { least: 0, most: 0.5, step: 0.01 } });
  }
  return [...wanted.values()];
}
