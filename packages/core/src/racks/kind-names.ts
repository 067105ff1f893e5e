// What kinds of points are called in sentences.
import type { PointKind } from '../physics/point.ts';

export const kindNames: Readonly<Record<PointKind, string>> = {
  digital_in: 'digital input',
  analogue_in: 'analogue input',
  capture: 'capture',
  counter: 'counter',
  encoder: 'encoder',
  fast_in: 'fast input',
  thermocouple: 'thermocouple',
  resistance: 'resistance thermometer',
  digital_out: 'digital output',
  analogue_out: 'analogue output',
  relay: 'relay',
  serial: 'serial line',
};
