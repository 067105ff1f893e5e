// What runs in a thread of Node; the library's file highs.wasm lies beside the bundle of it.
import { parentPort } from 'node:worker_threads';
import { type Ask, serve } from './serve.ts';

parentPort?.on('message', (ask: Ask) => void serve(ask, (answer) => parentPort?.postMessage(answer)));
