// What each unit measures and how engineers usually write it: the words of messages and of the option table.
import type { Unit } from './si.ts';

export type Usual = {
  /** With its article, as a message says it: 'a torque'. */
  readonly measures: string;
  readonly example: string;
  /** The first one is what a message proposes; where a bare number is right, the first one is empty. */
  readonly spellings: readonly string[];
};

/** Common practice, no source. */
export const usual: Readonly<Record<Unit, Usual>> = {
  '1': says('a plain number', '0.25', '', '%', 'ppm'),
  s: says('a time', '500 µs', 'ms', 'µs', 's', 'min', 'h', 'd', 'a'),
  m: says('a length', '12 mm', 'mm', 'm', 'µm', 'in', 'ft', 'mil'),
  'm/s': says('a speed', '150 m/min', 'm/min', 'm/s', 'mm/s', 'ft/min', 'in/s'),
  'm/s²': says('an acceleration', '5 m/s²', 'm/s²', 'mm/s²', 'g_n'),
  'm/s³': says('a jerk', '200 m/s³', 'm/s³', 'mm/s³'),
  'm²': says('an area', '0.75 mm²', 'mm²', 'm²', 'cm²', 'AWG'),
  'm³': says('a volume', '2 l', 'l', 'cm³', 'm³'),
  '1/m': says('a number per length', '5 1/mm', '1/mm', '1/m', '1/in'),
  's/m': says('a delay per length', '5 ns/m', 'ns/m', 'µs/m', 's/m'),
  kg: says('a mass', '22 kg', 'kg', 'g', 'lb', 't'),
  'kg·m²': says('an inertia', '1.2 kg·cm²', 'kg·cm²', 'kg·m²', 'lb·in²', 'oz·in·s²', 'kg·m² GD²'),
  'kg/m': says('a mass per length', '3 kg/m', 'kg/m', 'g/m', 'lb/ft'),
  'kg/m²': says('a mass per area', '90 g/m²', 'g/m²', 'kg/m²'),
  'kg/m³': says('a density', '900 kg/m³', 'kg/m³', 'g/cm³', 'lb/ft³'),
  N: says('a force', '90 N', 'N', 'kN', 'lbf', 'kgf'),
  N·m: says('a torque', '12 N·m', 'N·m', 'N·cm', 'lb·in', 'oz·in'),
  Pa: says('a pressure', '6 bar', 'bar', 'N/mm²', 'psi', 'Pa'),
  'N/m': says('a stiffness', '250 N/µm', 'N/µm', 'N/mm', 'N/m', 'lb/in'),
  'N·s/m': says('a damping', '40 N·s/m', 'N·s/m'),
  'N·m/rad': says('a torsional stiffness', '6 N·m/arcmin', 'N·m/arcmin', 'N·m/rad', 'lb·in/rad'),
  'N·m·s/rad': says('a torsional damping', '0.02 N·m·s/rad', 'N·m·s/rad', 'N·m/rpm'),
  rad: says('an angle', '40°', '°', 'arcmin', 'mrad', 'rad', 'rev'),
  'rad/s': says('an angular speed', '3000 rpm', 'rpm', 'rev/min', '°/s', 'rad/s'),
  'rad/s²': says('an angular acceleration', '500 rad/s²', 'rad/s²', 'rev/s²', 'rpm/s'),
  'rad/s³': says('an angular jerk', '8000 rad/s³', 'rad/s³', 'rev/s³'),
  Hz: says('a frequency', '50 Hz', 'Hz', 'kHz', 'MHz'),
  '1/s': says('a rate', '60 1/s', '1/s', '1/min', '1/h'),
  W: says('a power', '1.5 kW', 'kW', 'W', 'hp_metric', 'hp_mechanical'),
  J: says('an energy', '300 J', 'J', 'kJ', 'Wh', 'kWh'),
  V: says('a voltage', '24 V', 'V', 'mV', 'kV'),
  A: says('a current', '0.5 A', 'A', 'mA'),
  Ω: says('a resistance', '47 Ω', 'Ω', 'mΩ', 'kΩ', 'ohm'),
  'Ω/m': says('a resistance per length', '25 Ω/km', 'Ω/km', 'mΩ/m', 'Ω/m'),
  Ω·m: says('a resistivity', '0.0178 Ω·mm²/m', 'Ω·mm²/m', 'µΩ·m', 'Ω·m'),
  F: says('a capacitance', '820 µF', 'µF', 'mF', 'F'),
  'N·m/A': says('a torque constant', '1.4 N·m/A', 'N·m/A', 'oz·in/A'),
  'V·s/rad': says('a voltage constant', '85 V/krpm', 'V/krpm', 'mV/rpm', 'V·s/rad'),
  dB: says('a level', '3 dB', 'dB'),
  'dB/m': says('an attenuation per length', '20 dB/(100 m)', 'dB/(100 m)', 'dB/m', 'dB/km'),
  K: says('a temperature difference', '20 K', 'K', '°C', '°F'),
  'K abs': says('a temperature', '35 °C', '°C', '°F', 'K'),
  'W/K': says('a heat conductance', '12 W/K', 'W/K'),
  'K/W': says('a thermal resistance', '0.8 K/W', 'K/W', '°C/W'),
  'J/K': says('a heat capacity', '900 J/K', 'J/K', 'kJ/K', 'Wh/K'),
  '1/K': says('a temperature coefficient', '0.00393 1/K', '1/K', '%/K'),
  'W/(m²·K)': says('a heat transfer coefficient', '5.5 W/(m²·K)', 'W/(m²·K)'),
  bit: says('a data size', '72 octets', 'octets', 'bytes', 'bit'),
  'bit/s': says('a data rate', '100 Mbit/s', 'Mbit/s', 'kbit/s', 'Gbit/s'),
  's/bit': says('a time for each bit', '20 ns/octet', 'ns/octet', 'µs/octet'),
  cost: says('a cost', '120', '', 'cost'),
};

function says(measures: string, example: string, ...spellings: readonly string[]): Usual {
  return { measures, example, spellings };
}
