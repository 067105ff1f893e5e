// The door for workers: calculations on plain numbers and formulas, without reader and without YAML.

export * from './axes/calc/cutter.ts';
export * from './axes/calc/dwell-rise.ts';
export * from './axes/calc/efficiency.ts';
export * from './axes/calc/inertia.ts';
export * from './axes/calc/integral.ts';
export * from './axes/calc/join.ts';
export * from './axes/calc/law-peaks.ts';
export * from './axes/calc/load.ts';
export * from './axes/calc/motion-law.ts';
export * from './axes/calc/move-time.ts';
export * from './axes/calc/point-to-point.ts';
export * from './axes/calc/rms.ts';
export * from './axes/calc/segment.ts';
export * from './axes/calc/transform.ts';
export * from './axes/calc/winder.ts';
export * from './networks/calc/cycle.ts';
export * from './networks/calc/frame.ts';
export * from './networks/calc/kernel.ts';
export * from './networks/calc/limits.ts';
export * from './networks/calc/path.ts';
export { balance, loadsOf, patternOf } from './networks/calc/phases.ts';
export * from './networks/calc/polled.ts';
export * from './networks/calc/streams.ts';
export * from './networks/calc/summation.ts';
