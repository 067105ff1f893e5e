// How the text of the file is parsed, coloured and indented; the colours themselves are in the style sheet.
import { yamlLanguage } from '@codemirror/lang-yaml';
import { HighlightStyle, indentService, indentUnit, type LRLanguage, syntaxHighlighting } from '@codemirror/language';
import type { Extension } from '@codemirror/state';
import { tags } from '@lezer/highlight';

export const yamlText = (): Extension => [opened, machineYaml, indentUnit.of('  '), syntaxHighlighting(colours)];

/**
 * YAML in which a key may be a range of names, `rack_[1..3]`. It is one in YAML too, but the parser takes no key with a
 * bracket for the first of a map, and then misreads the map; so it is shown other characters of the same width.
 */
export const machineYaml: LRLanguage = yamlLanguage.configure({
  wrap: (_, input, fragments, ranges) => {
    const shown = (from: number, text: string): string => {
      const start = Math.max(0, from - longestRange);
      const around =
        input.read(start, from) +
        text +
        input.read(from + text.length, Math.min(input.length, from + text.length + longestRange));
      return around.replace(range, '_$1_').slice(from - start, from - start + text.length);
    };
    const masked: typeof input = {
      length: input.length,
      lineChunks: input.lineChunks,
      chunk: (from) => shown(from, input.chunk(from)),
      read: (from, to) => shown(from, input.read(from, to)),
    };
    return yamlLanguage.parser.createParse(masked, fragments, ranges);
  },
});

const range = /(?<=[a-z0-9_])\[(\d+\.\.\d+)\]/g;
/** More characters than any range within its brackets needs; our judgement. */
const longestRange = 40;

const colours = HighlightStyle.define([
  { tag: tags.comment, class: 'file-comment' },
  { tag: [tags.content, tags.string], class: 'file-value' },
  { tag: tags.definition(tags.propertyName), class: 'file-key' },
]);

/** Behind a key with nothing after its colon, the next line stands two columns further in. */
const opened = indentService.of((context, position) => {
  const above = context.lineAt(position, -1);
  const line = /^(\s*(?:- +)*)[^\s#'"-][^#]*:\s*(?:#.*)?$/.exec(above.text);
  return above.from < position && line !== null ? line[1]!.length + 2 : undefined;
});
