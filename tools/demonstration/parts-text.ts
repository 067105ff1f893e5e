// Writes invented parts as a catalogue file: a comment at the head, and each part with what it has beside the one it is like.

/** Figures as they are written, in the order in which they stand. */
export type Figures = Readonly<Record<string, string>>;

export interface InventedPart {
  readonly name: string;
  /** The part whose figures it has where its own are the same. */
  readonly like?: InventedPart | undefined;
  readonly figures: Figures;
}

/** The text of a catalogue; `head` is what its comment says, a line each. */
export const catalogueText = (head: readonly string[], parts: readonly InventedPart[]): string =>
  [
    ...head.map((line) => `# ${line}`.trimEnd()),
    'layshaft_catalogue: 1',
    'source: demonstration data',
    'parts:',
    ...parts.flatMap(linesOf),
    '',
  ].join('\n');

/** A number with so many significant digits: `1.50` is written 1.5. */
export const digits = (value: number, count: number): number => Number(value.toPrecision(count));

/** The next multiple of a step, to either side. */
export const stepped = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(9));

/** The next multiple of a step that is not over the value. */
export const steppedDown = (value: number, step: number): number =>
  Number((Math.floor(value / step + 1e-9) * step).toFixed(9));

const widest = 120;

function linesOf({ name, like, figures }: InventedPart): readonly string[] {
  const own = Object.entries(figures).filter(([key, text]) => like?.figures[key] !== text);
  const entries = own.map(([key, text]) => `${key}: ${/^[^{].*,/.test(text) ? JSON.stringify(text) : text}`);
  const lines = [`  ${name}: {`];
  for (const entry of like === undefined ? entries : [`like: ${like.name}`, ...entries]) {
    if (`${lines.at(-1)} ${entry},`.length > widest) lines.push('   ');
    lines.push(`${lines.pop()} ${entry},`);
  }
  return [...lines.slice(0, -1), `${lines.at(-1)!.slice(0, -1)} }`];
}
