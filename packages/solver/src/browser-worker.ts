// What runs in a worker of the browser.
import { type Ask, serve } from './serve.ts';

self.addEventListener('message', ({ data }: MessageEvent<Ask>) => {
  void serve(data, (answer) => self.postMessage(answer));
});
