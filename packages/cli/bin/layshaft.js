#!/usr/bin/env node
// Starts the command: loads the bundle, and says how to make it when it is missing.
import { existsSync } from 'node:fs';
import module from 'node:module';

const bundle = new URL('../dist/layshaft.js', import.meta.url);
if (existsSync(bundle)) {
  // Node 22.1 and later can keep the compiled code between two starts.
  module.enableCompileCache?.();
  await import(bundle.href);
} else {
  console.error('The command layshaft is not built yet: run npm start or npm run build once.');
  process.exitCode = 2;
}
