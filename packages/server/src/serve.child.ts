// Serves a folder until it is killed; only the test of killing starts it.
import { serve } from './serve.ts';

const [folder = '', web = ''] = process.argv.slice(2);
const onError = (error: unknown): void => console.error(error);
const { url } = await serve({ folder, web, port: 0, onError });
process.stdout.write(`${url}\n`);
