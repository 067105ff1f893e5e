// A picture as the library draws it; its numbers open their workings, its text stands beside it for those who ask.
import { type MouseEvent, useState } from 'react';
import type { PictureAt } from '../computing/protocol.ts';
import { useSheet } from './context.ts';
import { download } from './download.ts';
import { drawnWhenDifferent } from './same.ts';

interface FigureProps {
  readonly picture: PictureAt;
  readonly label: string;
  /** The address of the view that it belongs to. */
  readonly address: string;
}

export const Figure = drawnWhenDifferent(function Figure({ picture, label, address }: FigureProps) {
  const sheet = useSheet();
  const [asText, setAsText] = useState(false);
  const open = (event: MouseEvent): void => {
    const at = (event.target as Element).closest('[data-address], [data-about]');
    const about = at?.getAttribute('data-address') ?? at?.getAttribute('data-about');
    if (about) void sheet.look(about);
  };
  const save = async (): Promise<void> => {
    const svg = await sheet.pictureFile(address, picture.name);
    if (svg !== undefined) download(`${address}-${picture.name}.svg`, 'image/svg+xml', svg);
  };
  return (
    <figure data-picture={picture.name}>
      {/* The numbers in it also stand in the tables, where the keyboard reaches them. */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: see above */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: see above */}
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: the library escapes what it draws */}
      <div className="drawing" onClick={open} dangerouslySetInnerHTML={{ __html: picture.svg }} />
      {asText && <pre className="as-text">{picture.text.join('\n')}</pre>}
      <figcaption>
        <b>{label}</b> <span className="of">{picture.title}.</span> {picture.caption}
        <span className="tools">
          <button type="button" aria-expanded={asText} onClick={() => setAsText(!asText)}>
            as text
          </button>
          <button type="button" onClick={() => void save()}>
            SVG
          </button>
        </span>
      </figcaption>
    </figure>
  );
});
