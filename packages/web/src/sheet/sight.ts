// What is looked at comes into sight: only what the sheet does not show already, so that nothing jumps under the pointer.
import { useEffect, useRef } from 'react';
import type { SheetState } from '../document/state.ts';

/** A view is found by its address; a chapter by its domain, where no view of it shows what is looked at. */
const placeOf = (sight: string): HTMLElement | undefined =>
  [...document.querySelectorAll<HTMLElement>('.sheet [data-view]')].find(({ dataset }) => dataset.view === sight) ??
  document.getElementById(sight) ??
  undefined;

/** Brings a view or a chapter to the top of the sheet, and the keyboard with it. */
export function goTo(sight: string): void {
  const place = placeOf(sight);
  place?.scrollIntoView();
  place?.focus({ preventScroll: true });
}

/** So long after an address is new, pictures that are drawn anew for a note that opens or closes move what is in sight (our judgement). */
const settles_ms = 1500;

/** Follows the address: a view of its own, or the view that shows what a finding is about. */
export function useSight({ address, snapshot, note }: SheetState): void {
  const views = snapshot?.chapters.flatMap((chapter) => chapter.views) ?? [];
  const own = views.some((view) => view.address === address) ? address : undefined;
  const sight = snapshot?.looked[0]?.address ?? own ?? (note?.asked === address ? note?.view : undefined);
  const asked = useRef({ address, sight, until: 0 });
  // biome-ignore lint/correctness/useExhaustiveDependencies: each snapshot may have been drawn at another width
  useEffect(() => {
    if (asked.current.address !== address || asked.current.sight !== sight)
      asked.current = { address, sight, until: performance.now() + settles_ms };
    if (address === undefined || sight === undefined || performance.now() > asked.current.until) return;
    const place = placeOf(sight);
    if (place !== undefined && !isInSight(place)) place.scrollIntoView();
  }, [address, sight, snapshot]);
}

/** Whether its head is on the sheet, or the sheet is in the midst of it. */
function isInSight(place: HTMLElement): boolean {
  const sheet = place.closest('.sheet')!.getBoundingClientRect();
  const { top, bottom } = place.getBoundingClientRect();
  return top < sheet.bottom && bottom > sheet.top && (top >= sheet.top || bottom >= sheet.bottom);
}
