// The rack instance of the bench: 300 points of 6 kinds into 11 types of modules and 4 racks. All numbers are invented.
import type { RackInstance } from '../../packages/solver/src/instances.support.ts';

/** In the order of the channels below. */
const kinds = [
  { name: 'digital inputs', points: 128 },
  { name: 'digital outputs', points: 84 },
  { name: 'fast inputs', points: 22 },
  { name: 'counters', points: 12 },
  { name: 'analogue inputs', points: 38 },
  { name: 'temperatures', points: 16 },
];

/** Channels by kind; those in one group serve either kind. */
const modules: RackInstance['modules'] = [
  { name: 'in 12', channels: [12, 0, 0, 0, 0, 0], cost: 74, places: 1, current_A: 0.12, shared: false },
  { name: 'in 20', channels: [20, 0, 0, 0, 0, 0], cost: 109, places: 1, current_A: 0.19, shared: false },
  { name: 'out 10', channels: [0, 10, 0, 0, 0, 0], cost: 88, places: 1, current_A: 0.16, shared: false },
  { name: 'out 20', channels: [0, 20, 0, 0, 0, 0], cost: 151, places: 2, current_A: 0.27, shared: false },
  { name: 'in 12 out 6', channels: [12, 6, 0, 0, 0, 0], cost: 121, places: 1, current_A: 0.2, shared: false },
  { name: 'fast 6', channels: [6, 0, 6, 0, 0, 0], cost: 97, places: 1, current_A: 0.14, shared: true },
  { name: 'fast 10 count 6', channels: [0, 0, 10, 6, 0, 0], cost: 214, places: 2, current_A: 0.31, shared: false },
  { name: 'count 6', channels: [0, 0, 0, 6, 0, 0], cost: 132, places: 1, current_A: 0.22, shared: false },
  { name: 'analogue 6', channels: [0, 0, 0, 0, 6, 0], cost: 143, places: 1, current_A: 0.24, shared: false },
  { name: 'analogue 12', channels: [0, 0, 0, 0, 12, 12], cost: 267, places: 2, current_A: 0.37, shared: true },
  { name: 'temperature 10', channels: [0, 0, 0, 0, 0, 10], cost: 201, places: 1, current_A: 0.18, shared: false },
];

const racks: RackInstance['racks'] = [
  { name: 'rack 14', cost: 240, places: 14, current_A: 2.6 },
  { name: 'rack 9', cost: 175, places: 9, current_A: 1.9 },
  { name: 'rack 7', cost: 150, places: 7, current_A: 1.5 },
  { name: 'rack 4', cost: 110, places: 4, current_A: 1 },
];

/** `spare`: free channels as a share of the used ones. */
export const rackInstance = (spare: number): RackInstance => ({ kinds, spare, modules, racks });
