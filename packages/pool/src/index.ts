// Work on threads, whichever host has them.
export { type Host, type Listener, type RunOptions, runChunks, type Thread } from './run-chunks.ts';
export type { Kind, Kinds } from './work.ts';
