// The bar of a finding in characters: a line for what is needed, a block for what is left, a rail for what is there.
import type { MarginBar } from '@layshaft/core';

/** One character for each 24th of the bar, about 5 % of the capacity. */
export const barLength = 24;

/**
 * Solid means urgent. What holds leaves an open block with the notch in it; what is thin a solid one, hatched where the
 * demand has gone beyond the notch; what fails goes through the rail; what is unknown is dashed; yes and no have the
 * rail alone.
 */
export function printBar(bar: MarginBar, verdict: string): string {
  const rail = cellOf(bar.rail);
  const fails = verdict === 'fails';
  const cells = Array.from({ length: rail }, (_, at) => cell(at, rail, bar, verdict)).join('');
  return `${cells}${fails ? '╂' : '┃'}${(fails ? arrow(bar) : '').padEnd(barLength - rail - 1)}`;
}

function cell(at: number, rail: number, { demand, notch = 1, ...bar }: MarginBar, verdict: string): string {
  if (verdict === 'unknown') return at === 0 ? '├' : '╌';
  if (demand === undefined) return verdict === 'fails' && at === rail - 1 ? '─' : ' ';
  if (at === 0) return '├';
  if (at === cellOf(notch)) return '▼';
  // However little is left, it has a cell.
  const end = demand < bar.rail ? Math.min(cellOf(demand), rail - 1) : rail;
  if (at >= end) return verdict === 'thin' ? '█' : '░';
  return verdict === 'thin' && at > cellOf(notch) ? '▒' : '─';
}

function arrow({ demand = 0, rail, cut }: MarginBar): string {
  if (cut) return '►►';
  return cellOf(demand - rail) < 1 ? '►' : '─►';
}

const cellOf = (position: number): number => Math.floor(position * barLength);
