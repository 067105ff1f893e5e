// What every check says of itself.
import { describe, expect, it } from 'vitest';
import { allChecks } from './all.ts';

describe.each([...allChecks])('the check $id', ({ advice, page }) => {
  it('has advice that stands on one line of 80 columns, behind what the terminal puts before it', () => {
    expect(advice).toMatch(/^[a-z].*[^.]$/);
    expect(`    What helps: ${advice}.`.length).toBeLessThanOrEqual(80);
    expect(page).not.toMatch(/when it fails/i);
  });
});
