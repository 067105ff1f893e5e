// Which view of the sheet a finding is about, for a screen that leads from the margin to the argument.
import { quantitiesIn, type View } from '../checks/view.ts';
import { addressOf, type Quantity } from '../working/quantity.ts';
import type { Assessment } from './assess.ts';
import type { Chapter } from './chapters.ts';

/** The view of its chapter that is of its subject, or else shows its demand or capacity; the chapter's domain where none does. */
export function viewOfFinding(
  { findings }: Assessment,
  chapters: readonly Chapter[],
  address: string,
): string | undefined {
  const finding = findings.find((each) => each.address === address);
  const domain = finding?.check.split('.', 1)[0];
  const views = chapters.filter((chapter) => chapter.domain === domain).flatMap((chapter) => chapter.views);
  if (finding === undefined || views.length === 0) return undefined;
  const { demand, capacity, path } = finding;
  const own = views.find((view) => path === view.address || path.startsWith(`${view.address}.`));
  const shows = (side: Quantity | undefined, view: View): boolean =>
    side !== undefined && numbersOnSight(view).has(addressOf(side));
  const found = own ?? views.find((view) => shows(demand, view)) ?? views.find((view) => shows(capacity, view));
  return found?.address ?? domain;
}

/** Without those of tables that are made when somebody asks. */
const numbersOnSight = (view: View): ReadonlySet<string> =>
  new Set([...quantitiesIn({ ...view, later: [] })].map(addressOf));
