// One picture of what is shown as an SVG file of its own.
import { type Picture, printSvg, type View } from '@layshaft/core';
import { type Io, UserError } from './io.ts';
import { unwritable } from './read-file.ts';

/** Wide enough for a page across (our judgement). */
const width_px = 960;

/** Writes the picture, over one that is there; `-` prints it. Throws a UserError when there is no picture, or no one picture. */
export async function savePicture(
  views: readonly View[],
  name: string | undefined,
  file: string,
  io: Io,
): Promise<void> {
  const svg = `${printSvg(onePicture(views, name), { width_px, standalone: true })}\n`;
  if (file === '-') {
    io.stdout.write(svg);
    return;
  }
  if (!/\.svg$/i.test(file))
    throw new UserError(`A picture goes into a file whose name ends with .svg, not into ${file}.`);
  try {
    await io.writeFile(file, svg);
  } catch (error) {
    throw unwritable(file, error);
  }
  io.stdout.write(`${file} is written.\n`);
}

function onePicture(views: readonly View[], name: string | undefined): Picture {
  const found = picturesIn(views, name);
  const [first] = found;
  if (first !== undefined && found.length === 1) return first.picture;
  const there = found.map(({ picture, address }) => `${picture.name} of ${address}`).join(', ');
  const narrower =
    new Set(found.map(({ address }) => address)).size > 1
      ? 'Give the address of one of them'
      : 'Choose one with --picture';
  throw new UserError(`There are several pictures: ${there}. ${narrower}.`);
}

/** The pictures of a name, or all. Throws a UserError when there is none. */
export function picturesIn(
  views: readonly View[],
  name: string | undefined,
): readonly { readonly address: string; readonly picture: Picture }[] {
  const all = views.flatMap(({ address, pictures }) => pictures.map(({ picture }) => ({ address, picture })));
  if (all.length === 0)
    throw new UserError(`Nothing is drawn of ${views[0]?.address}; there are pictures of networks.`);
  const found = all.filter(({ picture }) => name === undefined || picture.name === name);
  if (found.length > 0) return found;
  const names = [...new Set(all.map(({ picture }) => picture.name))].join(', ');
  throw new UserError(`${views[0]!.address} has no picture ${name}; it has ${names}.`);
}
