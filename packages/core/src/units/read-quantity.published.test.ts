// Compares sizes of units and gauges with the printed digits of their sources.
import { describe, expect, it } from 'vitest';
import { readQuantity } from './read-quantity.ts';
import type { Unit } from './si.ts';

const readIn = (text: string, due: Unit) => {
  const reading = readQuantity(text, due);
  return reading.ok ? reading.value : Number.NaN;
};

/** Half a unit of the last printed digit. */
const halfDigit = (printed: string) => {
  const [digits = '', exponent = '0'] = printed.split('e');
  const decimals = digits.split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** (Number(exponent) - decimals);
};

describe('NIST SP 811 (2008), appendix B.8, factors for units listed alphabetically (from memory)', () => {
  it.each<[entry: string, text: string, due: Unit, printed: string]>([
    ['bar', '1 bar', 'Pa', '1.0e5'],
    ['degree (angle)', '1°', 'rad', '1.745329e-2'],
    ['foot', '1 ft', 'm', '3.048e-1'],
    ['foot per minute', '1 ft/min', 'm/s', '5.08e-3'],
    ['foot pound-force (torque)', '1 ft·lbf', 'N·m', '1.355818e0'],
    ['horsepower (550 ft·lbf/s)', '1 hp_mechanical', 'W', '7.456999e2'],
    ['horsepower (metric)', '1 hp_metric', 'W', '7.354988e2'],
    ['inch', '1 in', 'm', '2.54e-2'],
    ['kilogram-force', '1 kgf', 'N', '9.80665e0'],
    ['kilogram-force per square centimeter', '1 kgf/cm²', 'Pa', '9.80665e4'],
    ['kilowatt hour', '1 kWh', 'J', '3.6e6'],
    ['mil', '1 mil', 'm', '2.54e-5'],
    ['minute (angle)', '1 arcmin', 'rad', '2.908882e-4'],
    ['ounce (avoirdupois)', '1 oz', 'kg', '2.834952e-2'],
    ['ounce-force inch', '1 ozf·in', 'N·m', '7.061552e-3'],
    ['pound (avoirdupois)', '1 lb', 'kg', '4.535924e-1'],
    ['pound foot squared (moment of inertia)', '1 lb·ft²', 'kg·m²', '4.214011e-2'],
    ['pound inch squared (moment of inertia)', '1 lb·in²', 'kg·m²', '2.926397e-4'],
    ['pound per cubic foot', '1 lb/ft³', 'kg/m³', '1.601846e1'],
    ['pound-force', '1 lbf', 'N', '4.448222e0'],
    ['pound-force inch', '1 lbf·in', 'N·m', '1.129848e-1'],
    ['pound-force per inch', '1 lbf/in', 'N/m', '1.751268e2'],
    ['psi', '1 psi', 'Pa', '6.894757e3'],
    ['revolution per minute', '1 rpm', 'rad/s', '1.047198e-1'],
    ['second (angle)', '1 arcsec', 'rad', '4.848137e-6'],
    ['slug', '1 slug', 'kg', '1.459390e1'],
    ['ton, long', '1 ton_uk', 'kg', '1.016047e3'],
    ['ton, short', '1 ton_us', 'kg', '9.071847e2'],
  ])('%s', (_entry, text, due, printed) => {
    expect(Math.abs(readIn(text, due) - Number(printed))).toBeLessThanOrEqual(halfDigit(printed));
  });
});

describe('ASTM B258, standard diameters of American wire gauges in inches (from memory)', () => {
  it.each<[gauge: string, printed: string]>([
    ['4/0', '0.4600'],
    ['0000', '0.4600'],
    ['3/0', '0.4096'],
    ['2/0', '0.3648'],
    ['1/0', '0.3249'],
    ['0', '0.3249'],
    ['1', '0.2893'],
    ['10', '0.1019'],
    ['12', '0.0808'],
    ['14', '0.0641'],
    ['16', '0.0508'],
    ['18', '0.0403'],
    ['24', '0.0201'],
    ['30', '0.0100'],
    ['36', '0.0050'],
    ['40', '0.0031'],
    ['56', '0.00049'],
  ])('%s', (gauge, printed) => {
    const diameter = (text: string) => Math.sqrt((4 * readIn(text, 'm²')) / Math.PI) / 0.0254;
    expect(Math.abs(diameter(`AWG ${gauge}`) - Number(printed))).toBeLessThanOrEqual(halfDigit(printed));
    expect(diameter(`${gauge} AWG`)).toBe(diameter(`AWG ${gauge}`));
  });

  it.each(['AWG', 'AWG 57', 'AWG 5/0', 'AWG 00000', 'AWG 1.5', 'AWG -1', '18.5 AWG'])('%s is no gauge', (text) => {
    expect(readQuantity(text, 'm²')).toMatchObject({ ok: false, code: 'unit-unknown' });
  });
});
