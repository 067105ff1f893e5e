// What the surroundings leave a winding.
import { formula } from '../../working/formula.ts';

export const riseLeft = formula({
  id: 'axes.heat.rise_left',
  title: 'by how much a winding may warm up',
  text: 'max(W, A) - A',
  gives: 'K',
  symbols: { W: 'K abs', A: 'K abs' },
  means: { W: 'highest temperature of the winding', A: 'temperature of the surroundings' },
  try: { W: [260, 360], A: [270, 330] },
  source: 'definition',
  proof: 'a winding of 155 °C may warm up by 115 K at 40 °C',
  of: (W: number, A: number) => Math.max(W, A) - A,
});
