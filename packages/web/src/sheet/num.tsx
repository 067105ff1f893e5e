// A number on the page: its underline tells where it comes from, a click opens its working. Words stay words.
import type { CellJson } from '../computing/protocol.ts';
import { useSheet } from './context.ts';
import { useAddress } from './looking.ts';
import { lookBy } from './sight.ts';

export function Num({ cell, strong }: { readonly cell: CellJson; readonly strong?: boolean }) {
  const sheet = useSheet();
  const open = useAddress() === ('address' in cell ? cell.address : '');
  if (!('address' in cell)) return cell.text;
  return (
    <button
      type="button"
      className={`num o ${cell.origin}${strong ? ' strong' : ''}`}
      data-address={cell.address}
      aria-expanded={open}
      title={cell.origin === 'derived' ? cell.address : `${cell.origin}: ${cell.address}`}
      onClick={(event) => void lookBy(event, sheet, open ? undefined : cell.address)}
    >
      {cell.text}
    </button>
  );
}
