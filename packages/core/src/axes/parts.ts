// The parts that an axis is driven by, and what a catalogue states of them.
import { figure } from '../reading/figure.ts';
import { optional } from '../reading/groups.ts';
import { partKind } from '../reading/parts.ts';
import { count, cycles, share, word } from '../reading/values.ts';

const temperature = (about: string, example: string) => figure('K abs', { about, example });

/** Full figures up to a temperature and a height, and from there less in a straight line, down to nothing. */
const derating = {
  ambient: temperature('The surroundings up to which its figures hold.', '40 °C'),
  ambient_none: temperature(
    'The surroundings in which it gives nothing any more: from one to the other it falls evenly.',
    '120 °C',
  ),
  altitude: figure('m', { about: 'Height above the sea up to which its figures hold.', least: 0, example: '1000 m' }),
  altitude_none: figure('m', { about: 'Height at which it gives nothing any more.', above: 0, example: '11000 m' }),
};

export const motorFields = {
  inertia: figure('kg·m²', {
    about: 'Inertia of the rotor, a built-in brake included.',
    above: 0,
    example: '1.2 kg·cm²',
  }),
  torque: figure('N·m', {
    about: 'Torque that the motor gives for any length of time, at standstill.',
    above: 0,
    example: '4.8 N·m',
  }),
  torque_rated: figure('N·m', {
    about: 'Torque that it gives for any length of time at its rated speed.',
    above: 0,
    example: '4.1 N·m',
  }),
  speed_rated: figure('rad/s', { about: 'The rated speed.', above: 0, example: '3000 rpm' }),
  torque_peak: figure('N·m', { about: 'Torque that the motor gives for a short time.', above: 0, example: '14 N·m' }),
  speed_peak_torque: figure('rad/s', {
    about:
      'The speed up to which it gives its peak torque; from there to the highest speed it falls to the rated torque.',
    above: 0,
    example: '3200 rpm',
  }),
  speed: figure('rad/s', { about: 'The highest speed of the motor.', above: 0, example: '4500 rpm' }),
  mains: figure('V', {
    about: 'The mains that its speeds are stated for, effective, between conductors.',
    above: 0,
    example: '400 V',
  }),
  torque_constant: figure('N·m/A', { about: 'Torque for each ampere, effective.', above: 0, example: '1.2 N·m/A' }),
  temperature_rise: figure('K', {
    about: 'By how much the winding is warmer than the surroundings at the torque at standstill.',
    above: 0,
    example: '100 K',
  }),
  rise_in_winding: share({
    about: 'The share of that rise between winding and frame; 0 % where winding and frame count as one body.',
    example: '30 %',
  }),
  time_winding: figure('s', { about: 'Time constant of the winding against the frame.', above: 0, example: '60 s' }),
  time_frame: figure('s', {
    about: 'Time constant of the frame against the surroundings.',
    above: 0,
    example: '30 min',
  }),
  winding_at_most: temperature('The highest temperature of the winding.', '155 °C'),
  encoder: count({ about: 'Steps that its encoder tells apart in one turn.', least: 1, example: '1048576' }),
  brake: figure('N·m', { about: 'Torque that the holding brake holds.', above: 0, example: '9 N·m' }),
  brake_delay: figure('s', {
    about: 'Time from the loss of power until the brake holds.',
    least: 0,
    example: '40 ms',
  }),
  cooling_at_rest: share({
    about: 'How much of its cooling the motor keeps at standstill: 100 % without a fan of its own on the shaft.',
    above: 0,
    example: '100 %',
  }),
  ...derating,
};

const frame = figure('m', { about: 'Width of its flange.', above: 0, example: '80 mm' });

export const motorKind = partKind(
  'motor',
  {
    frame,
    mass: figure('kg', { about: 'Its mass, a built-in brake included.', above: 0, example: '3.1 kg' }),
    ...motorFields,
  },
  { about: 'A motor.' },
);

export const gearFields = {
  efficiency: share({ about: 'The share of the power that arrives when the motor drives.', above: 0, example: '96 %' }),
  inertia: figure('kg·m²', {
    about: 'Inertia of the gear, at the side of the motor.',
    least: 0,
    example: '0.4 kg·cm²',
  }),
};

/** What a gear bears and how stiff it is, beside what its train is computed from. */
export const gearLimits = {
  torque: figure('N·m', {
    about: 'Torque at its output that it bears for its life, in the mean.',
    above: 0,
    example: '60 N·m',
  }),
  torque_exponent: optional(
    count({ about: 'The power by which torque wears it: the mean torque is the root of it.', least: 1, example: '3' }),
  ),
  torque_peak: figure('N·m', { about: 'Torque at its output while speeding up.', above: 0, example: '110 N·m' }),
  torque_stop: figure('N·m', {
    about: 'Torque at its output in an emergency stop, a limited number of times.',
    above: 0,
    example: '220 N·m',
  }),
  speed: figure('rad/s', { about: 'Mean speed at the side of the motor.', above: 0, example: '3000 rpm' }),
  speed_peak: figure('rad/s', { about: 'Highest speed at the side of the motor.', above: 0, example: '6000 rpm' }),
  radial_load: figure('N', { about: 'Force across its output shaft.', above: 0, example: '2.4 kN' }),
  stiffness: figure('N·m/rad', { about: 'Torsional stiffness, at its output.', above: 0, example: '6 N·m/arcmin' }),
  backlash: figure('rad', { about: 'Backlash, at its output.', least: 0, example: '3 arcmin' }),
};

export const gearKind = partKind(
  'gear',
  {
    frame,
    ratio: figure('1', { about: 'Turns at the side of the motor for one of its output.', above: 0, example: '5' }),
    ...gearFields,
    ...gearLimits,
  },
  { about: 'A gear.' },
);

/** How a drive takes the setpoints of its axis over and goes from one to the next. */
const setpointFields = {
  interpolates: word(['none', 'linear', 'cubic'], {
    about:
      'How it goes from setpoint to setpoint: none holds each until the next, cubic meets position and speed of both; linear unless said.',
  }),
  setpoints: word(['in_step', 'on_arrival', 'own_clock'], {
    about:
      'When it takes a setpoint over: in_step with the others as their next period begins, on_arrival, or as a clock of its own comes round; in_step unless said.',
  }),
  setpoint_cycles: cycles({
    about: 'How many periods a setpoint waits in its buffers before it is followed.',
    least: 0,
    example: '1 cycle',
  }),
  setpoint_jitter: figure('s', {
    about: 'By how much it takes a setpoint over earlier or later than meant.',
    least: 0,
    example: '1 µs',
  }),
  clock_apart: share({
    about: 'By how much the rate of a clock of its own may differ from that of the network.',
    above: 0,
    example: '50 ppm',
  }),
};

/** What a drive is beside a station of a network. */
export const driveFigures = {
  current: figure('A', { about: 'Continuous output current, effective.', above: 0, example: '10 A' }),
  current_peak: figure('A', { about: 'Output current for a short time, effective.', above: 0, example: '25 A' }),
  current_peak_time: figure('s', { about: 'How long it gives its peak current.', above: 0, example: '2 s' }),
  loss_at_rest: figure('W', { about: 'Heat that it makes without any current.', least: 0, example: '24 W' }),
  loss_per_current: figure('V', { about: 'Heat for each ampere of its mean current.', least: 0, example: '9 W/A' }),
  capacitance: figure('F', { about: 'Capacitance of its DC bus.', above: 0, example: '820 µF' }),
  bus_brake: figure('V', { about: 'Voltage of the bus at which it switches a resistor.', above: 0, example: '780 V' }),
  bus_at_most: figure('V', { about: 'Voltage of the bus at which it trips.', above: 0, example: '820 V' }),
  resistor_at_least: figure('Ω', { about: 'The smallest resistance that it switches.', above: 0, example: '33 Ω' }),
  speed_sample: figure('s', { about: 'Time between two samples of its speed.', above: 0, example: '125 µs' }),
  ...setpointFields,
  ...derating,
};

export const resistorFields = {
  resistance: figure('Ω', { about: 'Resistance.', above: 0, example: '47 Ω' }),
  power: figure('W', { about: 'Power for any length of time.', above: 0, example: '400 W' }),
  energy: figure('J', { about: 'Energy that it takes at once, from cold.', above: 0, example: '12 kJ' }),
};
export const resistorKind = partKind('brake_resistor', resistorFields, {
  about: 'A resistor that burns what axes give back.',
});

export const axisKinds = [motorKind, gearKind, resistorKind];
