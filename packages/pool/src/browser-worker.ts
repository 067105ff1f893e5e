// What runs in a thread of a browser, a web worker.
import { type Ask, answerTo } from './serve.ts';

self.addEventListener('message', ({ data }: MessageEvent<Ask>) => self.postMessage(answerTo(data)));
