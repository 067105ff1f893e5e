// A thread of Node: answers each task in turn.
import { parentPort } from 'node:worker_threads';
import { answerTo, type Task } from './work.ts';

if (parentPort === null) throw new Error('This file is for a thread; the pool starts it.');
const port = parentPort;
port.on('message', (task: Task) => port.postMessage(answerTo(task)));
