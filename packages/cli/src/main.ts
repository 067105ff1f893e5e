// The command layshaft: hands the real world to the program and its exit status back.

import { readFile, realpath, rename, stat, writeFile } from 'node:fs/promises';
import { buffer } from 'node:stream/consumers';
import { onThreads } from './on-threads.ts';
import { run } from './program.ts';
import { solve } from './solve.ts';

/** A defect of the program itself; apart from what a file can cause. The number is EX_SOFTWARE of BSD's sysexits.h. */
const defect = 70;

// `layshaft … | head` closes the pipe early: what is left unsaid was not wanted.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}

try {
  process.exitCode = await run(process.argv.slice(2), {
    stdout: process.stdout,
    stderr: process.stderr,
    env: process.env,
    readFile: (path) => readFile(path),
    writeNew: (path, content) => writeFile(path, content, { flag: 'wx' }),
    writeFile: (path, content) => writeFile(path, content),
    replaceFile: async (path, text) => {
      const target = await realpath(path);
      const beside = `${target}.${process.pid}.new`;
      await writeFile(beside, text, { mode: (await stat(target)).mode });
      await rename(beside, target);
    },
    readStdin: () => buffer(process.stdin),
    solve,
    runParts: onThreads(new URL('thread.js', import.meta.url)),
    untilInterrupted: () =>
      new Promise((resolve) => {
        for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, () => resolve());
      }),
  });
} catch (error) {
  console.error('This is a defect of layshaft, not of your file. Please report it with the lines below.');
  console.error(error);
  process.exitCode = defect;
}
