// The contents: what each chapter found, set as text.
import type { ChapterAt } from '../computing/protocol.ts';
import { Glyph } from '../margins/bar.tsx';
import { plain } from '../sheet/sentence.tsx';
import { goTo } from '../sheet/sight.ts';

export function Contents({ chapters }: { readonly chapters: readonly ChapterAt[] }) {
  return (
    <nav className="contents" aria-label="Contents">
      <h2>Contents</h2>
      <ul>
        {chapters.map((chapter) => (
          <li key={chapter.domain}>
            <a
              href={`#${chapter.domain}`}
              onClick={(event) => {
                event.preventDefault();
                goTo(chapter.domain);
              }}
            >
              <span className="nm">{chapter.title}</span> <span className="say">{plain(chapter.gist)}</span>{' '}
              <Worst chapter={chapter} />
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** The worst verdict of a chapter, unless all holds. */
function Worst({ chapter: { verdicts } }: { readonly chapter: ChapterAt }) {
  const worst = (['fails', 'unknown', 'thin'] as const).find((verdict) => verdicts[verdict] > 0);
  return worst === undefined ? null : (
    <span className={`mk ${worst}`}>
      <Glyph verdict={worst} /> {verdicts[worst] === 1 ? '' : `${verdicts[worst]} `}
      {worst}
    </span>
  );
}
