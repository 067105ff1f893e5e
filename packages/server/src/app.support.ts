// The app of a test on a folder of its own, asked without a port.
import { expect, onTestFinished } from 'vitest';
import { createApp } from './app.ts';
import { openStore } from './file-store.ts';
import { openSheet } from './sheet-files.ts';
import { temporaryFolder, temporarySheet } from './temporary.support.ts';

export const own = 'http://127.0.0.1:5297';

/** Asks the app as its own page does, unless the request says otherwise; a header that is undefined is left out. */
export async function openedApp({
  files = { 'a.yaml': 'one' },
  token,
}: {
  files?: Record<string, string>;
  token?: string;
} = {}) {
  const root = temporaryFolder(files);
  const web = temporarySheet();
  const errors: unknown[] = [];
  const onError = (error: unknown): void => void errors.push(error);
  const store = await openStore(root, { onError });
  onTestFinished(async () => {
    await store.close();
    expect(errors).toEqual([]);
  });
  const hosts = () => ['127.0.0.1', 'localhost', '[::1]'];
  const app = createApp({ store, sheet: await openSheet(web), hosts, port: 5297, token, onError });
  const ask = async (
    path: string,
    init: { method?: string; body?: string; headers?: Record<string, string | undefined> } = {},
  ) => {
    const { headers, ...rest } = init;
    const given = Object.entries({ host: '127.0.0.1:5297', ...headers });
    const sent = given.flatMap(([name, text]) => (text === undefined ? [] : [[name, text] as [string, string]]));
    return app.request(`${own}${path}`, { ...rest, headers: sent });
  };
  const put = (body: unknown, headers: Record<string, string | undefined> = {}) =>
    ask('/api/file', {
      method: 'PUT',
      body: typeof body === 'string' ? body : JSON.stringify(body),
      headers: { origin: own, 'content-type': 'application/json', ...headers },
    });
  return { root, web, store, errors, ask, put };
}
