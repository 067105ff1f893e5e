// The margins: all findings, tightest first, beside every chapter; they never scroll away.
import type { FindingAt } from '../computing/protocol.ts';
import type { SheetState } from '../document/state.ts';
import { useSheet } from '../sheet/context.ts';
import { Origins } from '../sheet/origins.tsx';
import { drawnWhenDifferent } from '../sheet/same.ts';
import { lookBy } from '../sheet/sight.ts';
import { Bar } from './bar.tsx';

export function Margins({ state }: { readonly state: SheetState }) {
  const findings = state.snapshot?.findings ?? [];
  const before = new Map(state.before?.findings.map((finding) => [finding.address, finding.bar.demand]));
  const titles = new Map(state.snapshot?.chapters.map(({ domain, title }) => [domain, title]));
  return (
    <aside className="margins" aria-label="Margins, tightest first">
      <header>
        <h2>Margins</h2>
        <span>tightest first</span>
      </header>
      <ol className="lines">
        {findings.map((finding) => (
          <Line
            key={finding.address}
            finding={finding}
            chapter={titles.get(finding.check.split('.')[0] ?? '') ?? 'Parts'}
            was={before.get(finding.address)}
            open={state.address === finding.address}
          />
        ))}
      </ol>
      <footer>
        <p className="tally">
          {state.snapshot !== undefined &&
            (['fails', 'unknown', 'thin', 'holds'] as const).map((verdict) => (
              <span key={verdict}>
                <b>{findings.filter((finding) => finding.verdict === verdict).length}</b> {verdict}{' '}
              </span>
            ))}
        </p>
        <p className="key">
          <span>
            <i className="k-margin" /> margin
          </span>
          <span>
            <i className="k-notch" /> wanted
          </span>
          <span>
            <i className="k-was" /> before the last edit
          </span>
        </p>
        <Origins />
      </footer>
    </aside>
  );
}

interface LineProps {
  readonly finding: FindingAt;
  readonly chapter: string;
  readonly was: number | undefined;
  readonly open: boolean;
}

const Line = drawnWhenDifferent(function Line({ finding, chapter, was, open }: LineProps) {
  const sheet = useSheet();
  const { address, title, subject, verdict, margin, bar, lacks } = finding;
  return (
    <li className="line" data-verdict={verdict} data-finding={address}>
      <button
        type="button"
        aria-expanded={open}
        onClick={(event) => void lookBy(event, sheet, open ? undefined : address)}
      >
        <span className="name">
          {title} <span>{subject}</span>
        </span>
        <span className="m" data-address={margin?.address}>
          {margin?.text ?? (verdict === 'unknown' ? '?' : '')}
        </span>
        <span className="ch">{chapter}</span>
        {margin === undefined && verdict !== 'unknown' ? (
          <span className="yesno">{verdict === 'holds' ? 'yes' : 'no'}</span>
        ) : (
          <Bar bar={bar} verdict={verdict} was={was} lacks={lacks[0] && `${lacks[0].path.split('.').at(-1)}?`} />
        )}
        <span className="word">{verdict}</span>
      </button>
    </li>
  );
});
