// Frames of both directions at once: commands back to back on one, answers one behind another on the other.
import { formula, method } from '../../working/formula.ts';

/** The end of a command when commands follow each other without a pause. */
export const commandEnd = formula({
  id: 'networks.stream.command_end',
  title: 'end of the command, gap included, when commands follow each other',
  text: 'b + a',
  gives: 's',
  symbols: { b: 's', a: 's' },
  means: { b: 'end of what was sent before', a: 'this command on the line' },
  try: { b: [0, 1e-3], a: [5e-6, 2e-4] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (b: number, a: number) => b + a,
});

/** When an answer could come in if no other were in its way. */
export const answerReady = formula({
  id: 'networks.stream.answer_ready',
  title: 'first bit of the answer at the controller, if no other is in its way',
  text: 'c + p + D + r',
  gives: 's',
  symbols: { c: 's', p: 's', D: 's', r: 's' },
  means: { c: 'end of the command', p: 'way to the station', D: 'turnaround of the station', r: 'way back' },
  try: { c: [0, 1e-3], p: [0, 1e-5], D: [0, 1e-4], r: [0, 1e-5] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (c: number, p: number, D: number, r: number) => c + p + D + r,
});

/** Answers come in one behind another; one that is ready early waits for the one before it. */
export const answerEnd = formula({
  id: 'networks.stream.answer_end',
  title: 'end of the answer, gap included',
  text: 'max(e) + b',
  gives: 's',
  symbols: { e: 's[]', b: 's' },
  means: { e: 'when it is ready, and the end of the answer before', b: 'this answer on the line' },
  try: { e: [0, 1e-3], b: [5e-6, 2e-4] },
  source: 'judgement',
  at: 'the line to the controller is never idle while an answer waits',
  proof: 'cycle walked frame by frame',
  of: (e: readonly number[], b: number) => Math.max(...e) + b,
});

export const answerInChain = formula({
  id: 'networks.chained.answer',
  title: 'answer on the line, with what the profile adds in a chain',
  text: 'b + g',
  gives: 's',
  symbols: { b: 's', g: 's' },
  means: { b: 'answer on the line', g: 'what passes between one answer and the next beside the gap' },
  try: { b: [5e-6, 2e-4], g: [1e-8, 1e-6] },
  source: 'open-type-13',
  proof: 'C11',
  of: (b: number, g: number) => b + g,
});

/** The last bit of a command at its station. */
export const commandIn = formula({
  id: 'networks.stream.command_in',
  title: 'end of the command at its station, gap included',
  text: 'c + p',
  gives: 's',
  symbols: { c: 's', p: 's' },
  means: { c: 'end of the command at the controller', p: 'way to the station' },
  try: { c: [0, 1e-3], p: [0, 1e-4] },
  source: 'inet',
  at: 'showcase "gate scheduling"',
  proof: 'C3',
  of: (c: number, p: number) => c + p,
});

export const lastCommandIn = formula({
  id: 'networks.stream.last_command_in',
  title: 'the last command is at its station, gap included',
  text: 'max(c)',
  gives: 's',
  symbols: { c: 's[]' },
  means: { c: 'end of every command at its station' },
  try: { c: [1e-5, 1e-3] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (c: readonly number[]) => Math.max(...c),
});

/** Both directions run at once; the longer one counts. */
export const bothWays = formula({
  id: 'networks.slotted.exchanges',
  title: 'commands and answers at once; the longer counts',
  text: 'max(c, e)',
  gives: 's',
  symbols: { c: 's', e: 's' },
  means: { c: 'the last command is at its station', e: 'the last answer is at the controller' },
  try: { c: [1e-5, 1e-3], e: [1e-5, 1e-3] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (c: number, e: number) => Math.max(c, e),
});

/** When every station can act on the command of the same cycle. */
export const syncShift = formula({
  id: 'networks.sync.shift',
  title: 'least shift from the start of the cycle to the common sync event',
  text: 's + c',
  gives: 's',
  symbols: { s: 's', c: 's' },
  means: { s: 'start-of-cycle frame on the line', c: 'the last command is at its station, counted from the first' },
  try: { s: [0, 1e-4], c: [1e-5, 1e-3] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (s: number, c: number) => s + c,
});

/** Which cycle of the pattern counts. */
export const latestCommandIn = method({
  id: 'networks.sync.latest',
  title: 'the last command is at its station, in the cycle of the pattern in which that is latest',
  prose: 'the largest of c, after every station was given the one of its n cycles in which it is served',
  gives: 's',
  symbols: { c: 's[]', n: '1[]' },
  means: { c: 'when it is there in each cycle', n: 'multiple of the cycle on which each station is served' },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (c: readonly number[], _n: readonly number[]) => Math.max(...c),
});

/** The last station has its frame then even in the cycle that starts latest. */
export const shiftWithJitter = formula({
  id: 'networks.sync.with_jitter',
  title: 'shift to the common sync event that jitter of the start leaves safe',
  text: 's + j',
  gives: 's',
  symbols: { s: 's', j: 's' },
  means: {
    s: 'the last command is at its station, counted from the start of the cycle',
    j: 'by how much a cycle may start late',
  },
  try: { s: [1e-5, 1e-3], j: [0, 1e-4] },
  source: 'definition',
  proof: 'jitter, what is on the wire until the last command has left, and its way',
  of: (s: number, j: number) => s + j,
});

/** All commands in one frame. */
export const commandForAll = formula({
  id: 'networks.chained.payload',
  title: 'payload of the one command for all',
  text: 'sum(P)',
  gives: 'bit',
  symbols: { P: 'bit[]' },
  means: { P: 'payload for each station' },
  try: { P: [8, 512] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (P: readonly number[]) => P.reduce((sum, each) => sum + each, 0),
});
