// Reads an American wire gauge as the area of the wire.

/**
 * The area in m² of `AWG 18`, `18 AWG`, `AWG 2/0`, `AWG 00`; undefined for anything else, and outside 4/0 to 56.
 * d = 0.005 in · 92^((36 − n)/39), with n = 1 − k for k/0. Source: ASTM B258 (from memory).
 */
export function wireGaugeArea(text: string): number | undefined {
  const found = /^(?:AWG\s*(\S+)|(\S+?)\s*AWG)$/.exec(text);
  const size = found?.[1] ?? found?.[2] ?? '';
  const aughts = /^(?:([1-4])\/0|(0{1,4}))$/.exec(size);
  const gauge = aughts
    ? 1 - (aughts[1] ? Number(aughts[1]) : aughts[2]!.length)
    : /^[1-9]\d?$/.test(size)
      ? Number(size)
      : 99;
  if (gauge > 56) return undefined;
  const diameter_m = 0.005 * 0.0254 * 92 ** ((36 - gauge) / 39);
  return (Math.PI / 4) * diameter_m ** 2;
}
