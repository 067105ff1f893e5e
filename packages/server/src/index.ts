// The door of the package: a local web server for the sheet and the machine files of one folder.
export { type AppOptions, createApp } from './app.ts';
export {
  type FileList,
  type FileStore,
  type FileText,
  openStore,
  type SaveAnswer,
  type SaveRequest,
} from './file-store.ts';
export type { Save } from './history.ts';
export { historyLimits, largestText_octets, walkLimits } from './limits.ts';
export { Refusal } from './refusal.ts';
export { type Served, type ServeOptions, serve, usualPort } from './serve.ts';
export { openSheet } from './sheet-files.ts';
export type { Change } from './watch.ts';
