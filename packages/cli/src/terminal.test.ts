// Width and colour of the output, by what the user says, the environment and the terminal.
import { describe, expect, it } from 'vitest';
import { type LookOptions, lookOf } from './terminal.ts';

const look = (options: LookOptions, terminal?: number, env: Record<string, string> = {}) =>
  lookOf(options, { stdout: { write: () => true, ...(terminal && { isTTY: true, columns: terminal }) }, env });
const colours = (...of: Parameters<typeof look>) => look(...of).fails('x') !== 'x';

describe('width', () => {
  it('is 80 in a pipe and that of the terminal otherwise, up to what reads well', () => {
    expect(look({}).columns).toBe(80);
    expect(look({}, 72).columns).toBe(72);
    expect(look({}, 240).columns).toBe(100);
  });

  it('is what the user says, within what a bar needs', () => {
    expect(look({ width: 150 }, 72).columns).toBe(150);
    expect(look({}, 20).columns).toBe(48);
  });
});

describe('colour', () => {
  it('is for terminals only', () => {
    expect(colours({}, 80)).toBe(true);
    expect(colours({})).toBe(false);
  });

  it('is left out where the environment asks for that', () => {
    expect(colours({}, 80, { NO_COLOR: '1' })).toBe(false);
    expect(colours({}, 80, { NO_COLOR: '' })).toBe(true);
    expect(colours({}, 80, { TERM: 'dumb' })).toBe(false);
  });

  it('follows the user before all else', () => {
    expect(colours({ color: true })).toBe(true);
    expect(colours({ color: true }, 80, { NO_COLOR: '1' })).toBe(true);
    expect(colours({ color: false }, 80)).toBe(false);
  });

  it('does not wrap nothing in codes', () => expect(look({ color: true }).thin('')).toBe(''));
});
