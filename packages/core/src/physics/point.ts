// racks, timing: the kinds of points, and which of them a cause comes in by and an effect goes out by.

/** What a signal can come in by. */
export const inputKinds = [
  'digital_in',
  'analogue_in',
  'capture',
  'counter',
  'encoder',
  'fast_in',
  'thermocouple',
  'resistance',
] as const;

/** What a signal can go out by. */
export const outputKinds = ['digital_out', 'analogue_out', 'relay'] as const;

/** Beside these, a line on which data go both ways. */
export const pointKinds = [...inputKinds, ...outputKinds, 'serial'] as const;
export type PointKind = (typeof pointKinds)[number];
