// What the server answers: the sheet's files, and the machine files of the folder as JSON under /api.
import { type Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { streamSSE } from 'hono/streaming';
import type { FileStore, SaveRequest } from './file-store.ts';
import { type GuardOptions, guard, securityHeaders } from './guard.ts';
import { largestText_octets } from './limits.ts';
import { Refusal } from './refusal.ts';
import type { openSheet } from './sheet-files.ts';

export interface AppOptions extends GuardOptions {
  readonly store: FileStore;
  readonly sheet: Awaited<ReturnType<typeof openSheet>>;
  /** An error that is the server's own fault. */
  readonly onError: (error: unknown) => void;
}

/** JSON writes an octet of text in at most six, such as \u0001. */
const largestBody_octets = 6 * largestText_octets + 10_000;
/** Tells both ends of a quiet stream whether the other is still there (our judgement). */
const sign_ms = 20_000;

export function createApp(options: AppOptions): Hono {
  const { store, sheet } = options;
  const app = new Hono();
  app.use(securityHeaders, guard(options));

  app.get('/api/files', async (c) => c.json(await store.list()));

  app.get('/api/file', async (c) => {
    const file = await store.read(asked(c, 'path'));
    c.header('ETag', `"${file.version}"`);
    return c.json(file);
  });

  app.put('/api/file', bodyLimit({ maxSize: largestBody_octets, onError: refuseBody }), async (c) => {
    const { saved, ...answer } = await store.save(saveIn(await c.req.text()));
    if (saved) return c.json(answer);
    const says =
      answer.version === null ? 'The file is gone from the disk.' : 'The file on disk is another one by now.';
    return c.json({ error: { says, advice: 'Bring both texts together, then save again.' }, ...answer }, 409);
  });

  app.get('/api/history', async (c) => c.json({ saves: await store.history(asked(c, 'path')) }));

  app.get('/api/history/text', async (c) =>
    c.json({ text: await store.historyText(asked(c, 'path'), asked(c, 'id')) }),
  );

  app.get('/api/changes', (c) =>
    streamSSE(c, async (stream) => {
      const stop = store.follow((change) => void stream.writeSSE({ data: JSON.stringify(change) }));
      const sign = setInterval(() => void stream.write(': still here\n\n'), sign_ms);
      await new Promise<void>((resolve) => stream.onAbort(resolve));
      clearInterval(sign);
      stop();
    }),
  );

  app.all('/api/*', (c) => {
    throw new Refusal(404, `Nothing here is called ${c.req.path}.`, 'The guide to layshaft open lists what there is.');
  });

  app.get('*', async (c) => {
    const file = await sheet(c.req.path);
    if (file === undefined) throw new Refusal(404, `The sheet has no ${c.req.path}.`, 'Open the address / instead.');
    return c.body(file.octets, 200, file.headers);
  });

  app.onError((error, c) => {
    if (error instanceof Refusal) return refuse(c, error);
    options.onError(error);
    const fault = 'This is a defect of layshaft, not of your file.';
    return refuse(c, new Refusal(500, fault, 'Nothing was saved. Please report what the terminal says.'));
  });
  return app;
}

/** For a program as JSON, for a person as a line of text. */
function refuse(c: Context, { status, says, advice }: Refusal): Response {
  return c.req.path.startsWith('/api/')
    ? c.json({ error: { says, advice } }, status)
    : c.text(`${says} ${advice}\n`, status);
}

function refuseBody(): never {
  throw new Refusal(413, 'The text is larger than 2 MB.', 'Share values with like and set, or split the file.');
}

function asked(c: Context, name: string): string {
  const text = c.req.query(name);
  if (text === undefined) throw new Refusal(400, `The request lacks ${name}.`, `Add ?${name}= to the address.`);
  return text;
}

function saveIn(body: string): SaveRequest {
  const { path, text, base } = fieldsOf(body);
  if (typeof path === 'string' && typeof text === 'string' && (typeof base === 'string' || base === null))
    return { path, text, base };
  throw new Refusal(
    400,
    'The save is not understood.',
    'Send { "path": text, "text": text, "base": version or null }.',
  );
}

function fieldsOf(body: string): Partial<Record<keyof SaveRequest, unknown>> {
  try {
    return Object(JSON.parse(body));
  } catch (error) {
    if (error instanceof SyntaxError) return {};
    throw error;
  }
}
