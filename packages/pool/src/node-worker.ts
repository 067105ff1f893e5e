// What runs in a thread of Node.
import { parentPort } from 'node:worker_threads';
import { type Ask, answerTo } from './serve.ts';

parentPort?.on('message', (ask: Ask) => parentPort?.postMessage(answerTo(ask)));
