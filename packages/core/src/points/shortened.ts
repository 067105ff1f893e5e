// Cells in sentences and tables.

/** As much of a text as a sentence bears, on one line (our judgement). */
export const shortened = (text: string): string =>
  (text.length > 40 ? `${text.slice(0, 40)}…` : text).replace(/\s+/g, ' ');
