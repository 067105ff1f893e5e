// The whole pipeline over one machine file, by the public doors only; the test of purity runs it without a world around.
import { demonstration } from '@layshaft/catalogue';
import { assess, read, reportJson, resolve } from '@layshaft/core';

/** The report on a machine file; `file` is the name that its problems are reported under. */
export function pipeline(text: string, file: string): unknown {
  return reportJson(assess(resolve(read(text, { file }), [demonstration()])));
}
