// What is looked at comes into sight: only what the sheet does not show already, so that nothing jumps under the pointer.
// The keyboard goes along with who uses it, and both come back when it is closed.
import { type MouseEvent, useEffect, useRef } from 'react';
import type { Sheet } from '../document/sheet.ts';
import type { SheetState } from '../document/state.ts';

/** A view is found by its address; a chapter by its domain, where no view of it shows what is looked at. */
const placeOf = (sight: string): HTMLElement | undefined =>
  [...document.querySelectorAll<HTMLElement>('.sheet [data-view]')].find(({ dataset }) => dataset.view === sight) ??
  document.getElementById(sight) ??
  undefined;

const give = (element: HTMLElement | undefined): void => element?.focus({ preventScroll: true });

/** Brings a view or a chapter to the top of the sheet, and the keyboard with it. */
export function goTo(sight: string): void {
  placeOf(sight)?.scrollIntoView();
  give(placeOf(sight));
}

/** What was pressed last to look at something, outside the working that it opens. */
let opener: { readonly element: HTMLElement; readonly isByKeyboard: boolean } | undefined;

/** Looks at an address because of a click; one that the keyboard made leads into the working, or the view. */
export async function lookBy(event: MouseEvent<HTMLElement>, sheet: Sheet, address: string | undefined): Promise<void> {
  // A browser counts the clicks of a pointer from one.
  const isByKeyboard = event.detail === 0;
  const element = event.currentTarget;
  if (element.closest('.note') === null) opener = { element, isByKeyboard };
  await sheet.look(address);
  if (isByKeyboard && address !== undefined) give(document.querySelector<HTMLElement>('.note') ?? placeOf(address));
}

/** When a working is closed from within, the keyboard is again where it was opened. */
export function useWayBack(): void {
  useEffect(
    () => () => {
      if (opener?.isByKeyboard && document.activeElement === document.body) give(opener.element);
    },
    [],
  );
}

/** So long after an address is new, pictures that are drawn anew for a note that opens or closes move what is in sight (our judgement). */
const settles_ms = 1500;

/** Follows the address: a view of its own, or the view that shows what a finding is about. */
export function useSight({ address, snapshot, note }: SheetState): void {
  const views = snapshot?.chapters.flatMap((chapter) => chapter.views) ?? [];
  const own = views.some((view) => view.address === address) ? address : undefined;
  const appended = snapshot?.looked[0]?.address;
  const sight = appended ?? own ?? (note?.asked === address ? note?.view : undefined);
  const asked = useRef({ address, sight, until: 0 });
  // biome-ignore lint/correctness/useExhaustiveDependencies: each snapshot may have been drawn at another width
  useEffect(() => {
    if (asked.current.address !== address || asked.current.sight !== sight)
      asked.current = { address, sight, until: performance.now() + settles_ms };
    if (address === undefined || sight === undefined || performance.now() > asked.current.until) return;
    const place = placeOf(sight);
    if (place !== undefined && !isInSight(place)) place.scrollIntoView();
  }, [address, sight, snapshot]);
  useEffect(() => {
    if (appended === undefined) return undefined;
    // A view at the end of the sheet is gone when it is closed: one is again where one came from.
    return () => opener?.element.scrollIntoView({ block: 'center' });
  }, [appended]);
}

/** Whether its head is on the sheet, or the sheet is in the midst of it. */
function isInSight(place: HTMLElement): boolean {
  const sheet = place.closest('.sheet')!.getBoundingClientRect();
  const { top, bottom } = place.getBoundingClientRect();
  return top < sheet.bottom && bottom > sheet.top && (top >= sheet.top || bottom >= sheet.bottom);
}
