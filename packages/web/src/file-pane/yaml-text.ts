// How the text of the file is coloured and indented; the colours themselves are in the style sheet.
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, indentService, indentUnit, syntaxHighlighting } from '@codemirror/language';
import type { Extension } from '@codemirror/state';
import { tags } from '@lezer/highlight';

export const yamlText = (): Extension => [opened, yaml(), indentUnit.of('  '), syntaxHighlighting(colours)];

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
