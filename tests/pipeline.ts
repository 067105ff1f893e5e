// The whole pipeline over one machine file, by the public doors only; the test of purity runs it without a world around.
import { demonstration } from '@layshaft/catalogue';
import { assess, printLines, printSvg, read, reportJson, resolve, show } from '@layshaft/core';

/** The report on a machine file and its pictures; `file` is the name that its problems are reported under. */
export function pipeline(text: string, file: string): object {
  const assessment = assess(resolve(read(text, { file }), [demonstration()]));
  const pictures = show(assessment, 'networks').flatMap((view) => view.pictures.map(({ picture }) => picture));
  return {
    ...reportJson(assessment),
    pictures: pictures.map((picture) => [printSvg(picture, { width_px: 760 }), printLines(picture, 80)]),
  };
}
