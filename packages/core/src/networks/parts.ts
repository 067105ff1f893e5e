// The parts that a network is made of, and what a catalogue states of them.
import { figure } from '../reading/figure.ts';
import { list, section } from '../reading/groups.ts';
import { partKind } from '../reading/parts.ts';
import { count, cycles, quantity, quantityOr, share, word } from '../reading/values.ts';
import { lossRules } from './noise-fields.ts';

/**
 * How the stations get their turn. `polled`: one exchange after another. `pipelined`: commands back to back, answers
 * meanwhile on the other direction. `chained`: one command for all, then all answers. `summation`: frames that pass
 * through all stations and come back. `slotted`: scheduled frames in both directions at once.
 */
export const disciplines = ['polled', 'pipelined', 'chained', 'summation', 'slotted'] as const;
export type Discipline = (typeof disciplines)[number];

/** How runs can be laid. `ring` comes back to the controller; `tree` has a hub or switch that another one hangs on. */
export const topologies = ['line', 'star', 'tree', 'ring'] as const;
export type Topology = (typeof topologies)[number];

/** How frames go on a whole ring. */
export const ringFrames = ['one_way', 'both_ways'] as const;
export type RingFrames = (typeof ringFrames)[number];

/**
 * What may pass frames on between the stations of a profile, beside the stations themselves: a hub, a branch (a switch
 * that waits for nothing), a switch after the start of a frame, a switch that stores frames.
 */
export const passers = ['hub', 'branch', 'start', 'frame'] as const;
export type Passer = (typeof passers)[number];

const forwarding = figure('s', {
  about:
    'Time from the first bit in to the first bit out when a frame is passed on, beside what it waits for the frame itself.',
  least: 0,
  example: '400 ns',
});
const waits = quantityOr('bit', 'frame', {
  about:
    'How much of a frame, counted from its preamble, must have come in before it is passed on; frame for all of it.',
  least: 0,
  example: '22 octets',
});
const plugs = count({ about: 'How many runs can be plugged in.', least: 1, example: '2' });

/** What a station passes on and answers; a hub or switch only passes on. */
export const stationFields = {
  forwarding,
  waits,
  turnaround: figure('s', {
    about: 'Time from the end of the command to the start of the answer.',
    least: 0,
    example: '2.4 µs',
  }),
  command: quantity('bit', {
    about: 'Payload that the controller sends to the station in each exchange.',
    least: 0,
    example: '24 octets',
  }),
  answer: quantity('bit', {
    about: 'Payload that the station sends back in each exchange.',
    least: 0,
    example: '28 octets',
  }),
  plugs,
};

/** What a file may say of a station beside what its part states. */
export const stationUse = {
  ...stationFields,
  every: cycles({ about: 'The station is served in every n-th cycle of its network.', least: 1, example: '2 cycles' }),
  address: count({
    about: 'Its address on the network; without one the network numbers its stations.',
    least: 0,
    example: '12',
  }),
  ...lossRules,
};

/** All that a node of a file may be: a station, a hub, a switch or a coupling. */
export const nodeFields = {
  ...stationUse,
  attenuation: figure('dB', { about: 'What a coupling takes from the signal.', least: 0, example: '0.4 dB' }),
  collision_delay: figure('bit', {
    about: 'What a hub adds to the round trip of a collision.',
    least: 0,
    example: '140 bit',
  }),
};

/** As a station; what it is for its axis, the axes say. */
export const driveKind = partKind('drive', stationFields, { about: 'A drive, a station of the network.' });
export const stationKind = partKind('station', stationFields, {
  about: 'A station that is no axis, such as a remote rack.',
});
export const hubKind = partKind(
  'hub',
  { forwarding, plugs, collision_delay: nodeFields.collision_delay },
  {
    about: 'A repeater: passes every bit on to all its plugs and answers nothing.',
  },
);
export const switchKind = partKind(
  'switch',
  { forwarding, waits, plugs },
  {
    about:
      'A switch: passes a frame on to the plug that leads to its station, when the whole frame or its start has come in.',
  },
);
export const couplingKind = partKind(
  'coupling',
  { attenuation: nodeFields.attenuation, plugs },
  {
    about: 'A passive joint of two cables, such as a bulkhead plug.',
  },
);

export const cableFields = {
  delay: figure('s/m', { about: 'Propagation time per metre.', above: 0, example: '5 ns/m' }),
  attenuation: figure('dB/m', {
    about: 'What a metre takes from the signal at the frequency that the profile’s limit is stated for.',
    above: 0,
    example: '0.23 dB/m',
  }),
};
export const cableKind = partKind('cable', cableFields, { about: 'A cable by the metre.' });

export const controllerFields = {
  cycles: list(quantity('s', { about: 'A cycle that the controller can run.', above: 0, example: '500 µs' }), {
    about: 'The cycles that the controller can run.',
  }),
  ports: count({ about: 'How many networks the controller can run.', least: 1, example: '2' }),
  kernel_base: figure('s', {
    about: 'Time of the motion kernel in each cycle, without any axis.',
    least: 0,
    example: '40 µs',
  }),
  kernel_per_axis: figure('s', {
    about: 'Time of the motion kernel for each axis that is served in the cycle.',
    least: 0,
    example: '12 µs',
  }),
  kernel_per_octet: figure('s/bit', {
    about: 'Time of the motion kernel for each octet of stations that are no axes, both ways.',
    least: 0,
    example: '20 ns/octet',
  }),
  kernel_share: share({ about: 'The share of a cycle that the motion kernel may take.', above: 0, example: '60 %' }),
};
export const controllerKind = partKind('controller', controllerFields, { about: 'A motion controller.' });

/** Every overhead of a discipline is data of its profile. Frames are counted from destination address to check sequence. */
export const profileFields = {
  discipline: word(disciplines, { about: 'How the stations get their turn.' }),
  line: word(['passed_on', 'shared'], {
    about:
      'Whether every station passes frames on to the next, or all hang on one shared line and add nothing to the way.',
  }),
  rate: quantity('bit/s', { about: 'Bits on the wire per second.', above: 0, example: '100 Mbit/s' }),
  preamble: quantity('bit', {
    about: 'What goes before each frame: preamble and start delimiter.',
    least: 0,
    example: '8 octets',
  }),
  gap: quantity('bit', { about: 'The least silence between two frames.', least: 0, example: '12 octets' }),
  frame_at_least: quantity('bit', {
    about: 'The shortest frame; a shorter one is padded.',
    above: 0,
    example: '64 octets',
  }),
  frame_at_most: quantity('bit', { about: 'The longest frame.', above: 0, example: '1518 octets' }),
  overhead: quantity('bit', {
    about: 'What a frame carries beside its payload: addresses, type, the telegram’s own head, check sequence.',
    least: 0,
    example: '28 octets',
  }),
  start_frame: quantity('bit', {
    about: 'The frame that opens a cycle; 0 octets for none.',
    least: 0,
    example: '64 octets',
  }),
  window_opens: quantity('bit', {
    about: 'The frame that opens the non-cyclic window; 0 octets for none.',
    least: 0,
    example: '64 octets',
  }),
  window_closes: quantity('bit', {
    about: 'The frame that closes the non-cyclic window; 0 octets for none.',
    least: 0,
    example: '0 octets',
  }),
  answer_gap: figure('s', {
    about: 'Chained answers: what passes between one answer and the next beside the gap.',
    least: 0,
    example: '50 ns',
  }),
  topologies: list(word(topologies, { about: 'How the runs may be laid.' }), {
    about: 'The ways of laying the runs that are allowed.',
  }),
  ring_frames: word(ringFrames, {
    about:
      'How frames go on a whole ring: one_way, so that the other way is for stations behind a break; both_ways, a copy each way, so that a frame is lost with both copies. Where nothing is said, one way is counted.',
  }),
  passes: list(word(passers, { about: 'What may pass frames on between the stations.' }), {
    about:
      'What may pass frames on between the stations: hub, branch (a switch that waits for nothing), start (a switch after the start of a frame), frame (a switch that stores frames).',
  }),
  stations_at_most: count({ about: 'The most stations.', least: 1, example: '60' }),
  spacing_at_most: figure('m', {
    about: 'The longest link between two devices that pass the signal on.',
    above: 0,
    example: '100 m',
  }),
  length_at_most: figure('m', { about: 'All cable of the network together.', above: 0, example: '2000 m' }),
  attenuation_at_most: figure('dB', {
    about: 'The most that one link may take from the signal.',
    above: 0,
    example: '24 dB',
  }),
  hops_at_most: count({
    about: 'The most devices that a frame may pass on its way to a station.',
    least: 0,
    example: '60',
  }),
  cycle_at_least: quantity('s', { about: 'The shortest cycle.', above: 0, example: '250 µs' }),
  collision_window: quantity('bit', {
    about: 'For a profile that resolves collisions: the longest round trip.',
    above: 0,
    example: '512 bit',
  }),
  collision_delay: figure('bit', {
    about: 'For a profile that resolves collisions: what two stations and the controller add to the round trip.',
    least: 0,
    example: '100 bit',
  }),
  addresses: section(
    {
      from: count({ about: 'The lowest address.', least: 0, example: '1' }),
      to: count({ about: 'The highest address.', least: 0, example: '239' }),
      taken_by_the_network: list(
        count({ about: 'An address that the network keeps for itself.', least: 0, example: '240' }),
        { about: 'Addresses that no station can have.' },
      ),
    },
    { about: 'The addresses that stations can have.' },
  ),
};
export const profileKind = partKind('profile', profileFields, {
  about: 'The rules of a network: its discipline, rate, overheads and limits.',
});

export const networkKinds = [
  stationKind,
  hubKind,
  switchKind,
  couplingKind,
  cableKind,
  controllerKind,
  profileKind,
] as const;
