// Points from a spreadsheet: a list is pasted, shown as it is read, and written into the file when somebody says so.
import { useState } from 'react';
import type { ListAt } from '../computing/protocol.ts';
import { useSheet } from '../sheet/context.ts';
import { DataTable } from '../sheet/data-table.tsx';
import { takeFocus } from './focus.ts';

/** More of a kind are not told one by one (our judgement: nobody reads further). */
const mostTold = 8;

export function PastePoints({ close }: { readonly close: () => void }) {
  const sheet = useSheet();
  const [text, setText] = useState('');
  const [found, setFound] = useState<ListAt>();
  const show = async (pasted: string): Promise<void> => {
    setText(pasted);
    setFound(pasted.trim() === '' ? undefined : await sheet.ask('list', { text: pasted }));
  };
  // What is shown is that of the text that stands in the box, not of an earlier one.
  const list = found?.text === text ? found : undefined;
  const isReady = list !== undefined && list.count > 0 && list.problems.length === 0;
  const write = async (): Promise<void> => {
    if (await sheet.writeList(text)) close();
  };
  return (
    <section className="notice paste-points" aria-labelledby="paste-points">
      <p id="paste-points">
        Copy a list of points in a spreadsheet, with the heads of its columns, and paste it here. Nothing is written
        before you have seen how it is read.
      </p>
      <textarea
        ref={takeFocus}
        aria-label="List of points"
        rows={6}
        spellCheck={false}
        value={text}
        onChange={({ target }) => void show(target.value)}
        onKeyDown={({ key }) => key === 'Escape' && close()}
      />
      {list?.columns && <DataTable table={list.columns} address="points" />}
      {list !== undefined && <Told lines={list.problems} className="pr" />}
      {list !== undefined && <Told lines={list.remarks} className="remark" />}
      <p className="answers">
        <button type="button" disabled={!isReady} onClick={() => void write()}>
          {isReady ? `write ${list.count === 1 ? 'one point' : `${list.count} points`} into the file` : 'write'}
        </button>
        <button type="button" onClick={close}>
          not now
        </button>
      </p>
    </section>
  );
}

function Told({ lines, className }: { readonly lines: readonly string[]; readonly className: string }) {
  if (lines.length === 0) return null;
  return (
    <ul className={className}>
      {lines.slice(0, mostTold).map((line) => (
        <li key={line}>{line}</li>
      ))}
      {lines.length > mostTold && <li>and {lines.length - mostTold} more</li>}
    </ul>
  );
}
