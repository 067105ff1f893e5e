// The line between file and sheet: dragged or stepped, it gives the file more room; this browser remembers it.
import { type KeyboardEvent, type PointerEvent, useEffect, useState } from 'react';
import { memory } from '../document/browser-memory.ts';

/** Narrower nothing can be read, wider nothing of the sheet (our judgement). */
const [least_px, usual_px, most_px] = [220, 360, 900];

export function Divider() {
  const [width_px, setWidth] = useState(() => memory.fileWidth() ?? usual_px);
  useEffect(() => {
    document.documentElement.style.setProperty('--w-file-own', `${width_px}px`);
    memory.keepFileWidth(width_px);
  }, [width_px]);
  const to = (wanted_px: number): void => setWidth(Math.min(Math.max(Math.round(wanted_px), least_px), most_px));
  const follow = (event: PointerEvent): void => {
    if (event.currentTarget.hasPointerCapture(event.pointerId)) to(event.clientX);
  };
  const step = (event: KeyboardEvent): void => {
    const by = { ArrowRight: 20, ArrowLeft: -20 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    to(width_px + by);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a rule cannot be moved
    <div
      className="divider"
      role="separator"
      tabIndex={0}
      aria-orientation="vertical"
      aria-label="Width of the file"
      aria-valuenow={width_px}
      aria-valuemin={least_px}
      aria-valuemax={most_px}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={follow}
      onKeyDown={step}
    />
  );
}
