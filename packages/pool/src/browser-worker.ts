// What runs in a Web Worker.
import { type Ask, answerTo } from './serve.ts';

self.addEventListener('message', ({ data }: MessageEvent<Ask>) => self.postMessage(answerTo(data)));
