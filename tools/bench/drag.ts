/// <reference lib="dom" />
// Dragging an input of the sheet in a real browser: from the pointer's event to the frame that shows what came of it.
import { demonstration } from '@layshaft/catalogue';
import { assess, explain, read, resolve } from '@layshaft/core';
import type { Browser } from 'playwright-core';
import { openPage, serveExamples, startBrowser } from '../../tests/browser/support/browser.ts';

/** Times from the pointer's event to the painted frame, sorted. */
export interface Dragged {
  readonly example: string;
  readonly latencies_ms: readonly number[];
  /** The same on a page that does nothing but write the pointer's place. */
  readonly bare_ms: readonly number[];
}

interface Frame {
  readonly time_ms: number;
  readonly value: string;
  readonly margin: string;
  readonly free: string;
}

const example = 'print-line';
const path = 'networks.shaft';
const finding = 'networks.cycle@shaft';

/**
 * Drags the non-cyclic frame of the large example, one move after another. Throws when a frame shows numbers that do not
 * belong together, or when a move shows nothing.
 */
export async function dragLatencies(moves: number): Promise<Dragged> {
  const browser = await startBrowser();
  const folder = await serveExamples(example);
  try {
    const { page } = await openPage(browser, folder, `${example}.yaml`);
    const text = folder.read(`${example}.yaml`);
    await page.evaluate(watchFrames, { path, finding });
    const ruler = page.locator(`[data-input="${path}.non_cyclic"] .ruler`);
    await ruler.scrollIntoViewIfNeeded();
    const box = (await ruler.boundingBox())!;
    const y = box.y + box.height / 2;
    const at = (move: number): number => box.x + ((move + 0.5) / (moves + 2)) * box.width;
    await page.mouse.move(at(0), y);
    await page.mouse.down();
    for (let move = 1; move <= moves; move++) {
      const before = await page.evaluate(shownValue);
      await page.mouse.move(at(move), y);
      await page.waitForFunction((was) => (globalThis as unknown as Watch).frames.at(-1)?.value !== was, before, {
        polling: 5,
      });
      // As far apart as the events of a mouse are.
      await page.waitForTimeout(8);
    }
    await page.mouse.up();
    const { frames, moved } = (await page.evaluate(() => {
      const { frames, moved } = globalThis as unknown as Watch;
      return { frames, moved };
    })) as Watch;
    for (const frame of frames) agree(frame, text);
    const latencies_ms = moved.slice(-moves).map((time) => {
      const shown = frames.find((frame) => frame.time_ms >= time);
      if (shown === undefined) throw new Error('a move has shown nothing');
      return shown.time_ms - time;
    });
    const bare_ms = await bareLatencies(browser, moves);
    return { example, latencies_ms: sorted(latencies_ms), bare_ms: sorted(bare_ms) };
  } finally {
    await browser.close();
    await folder.remove();
  }
}

const sorted = (times: readonly number[]): readonly number[] => [...times].sort((a, b) => a - b);

async function bareLatencies(browser: Browser, moves: number): Promise<readonly number[]> {
  const page = await browser.newPage();
  await page.setContent('<p></p>');
  await page.evaluate(() => {
    const seen: number[] = [];
    Object.assign(globalThis, { seen });
    document.addEventListener('pointermove', (event) => {
      document.querySelector('p')!.textContent = String(event.clientX);
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => void seen.push(performance.now() - event.timeStamp);
        port2.postMessage(undefined);
      });
    });
  });
  for (let move = 1; move <= moves; move++) {
    await page.mouse.move(move, 10);
    await page.waitForFunction((count) => (globalThis as unknown as { seen: number[] }).seen.length >= count, move, {
      polling: 5,
    });
  }
  const seen = await page.evaluate(() => (globalThis as unknown as { seen: number[] }).seen);
  await page.close();
  return seen;
}

interface Watch {
  frames: Frame[];
  moved: number[];
}

const shownValue = (): string | undefined => (globalThis as unknown as Watch).frames.at(-1)?.value;

/** In the page: notes the time of each move of the pointer, and of each frame in which the value is another one. */
function watchFrames({ path, finding }: { path: string; finding: string }): void {
  const watch = globalThis as unknown as Watch;
  watch.frames = [];
  watch.moved = [];
  document.addEventListener('pointermove', (event) => watch.moved.push(event.timeStamp), { capture: true });
  const input = (): HTMLInputElement => document.querySelector(`[data-input="${path}.non_cyclic"] input`)!;
  const textOf = (selector: string): string => document.querySelector(selector)?.textContent ?? '';
  const look = (): void => {
    const { value } = input();
    if (value !== watch.frames.at(-1)?.value) {
      const margin = textOf(`[data-finding="${finding}"] .m`);
      const free = textOf(`[data-view="${path}"] .result [data-address^="networks.cycle.free"]`);
      const frame = { value, margin, free, time_ms: 0 };
      watch.frames.push(frame);
      // A message is handled after the frame has been painted.
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => Object.assign(frame, { time_ms: performance.now() });
      port2.postMessage(undefined);
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

/** The three numbers of a frame are those of one and the same machine. */
function agree({ value, margin, free }: Frame, text: string): void {
  const varied = text.replace(/(non_cyclic: )[\d.]+ octets/, `$1${value}`);
  const assessment = assess(resolve(read(varied), [demonstration()]));
  const [due, left] = [explain(assessment, finding)?.text, explain(assessment, 'networks.cycle.free@shaft')?.text];
  if (margin !== due || free !== left)
    throw new Error(`at ${value} a frame shows ${margin} and ${free}; due are ${due} and ${left}`);
}
