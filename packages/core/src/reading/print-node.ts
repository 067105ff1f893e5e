// Plain trees as YAML on one line, and a value that a user typed as a plain tree.
import { parseText } from './parse.ts';
import type { LeafNode, Node } from './tree.ts';

/** Inside brackets, more characters need quotes. */
type Style = 'block' | 'flow';

/** What a user typed for a value: a map or list in brackets where it is one, else the text as it is. */
export function nodeOf(value: string): Node {
  const text = value.trim();
  if (/^[{[]/.test(text) && !/[\r\n]/.test(text)) {
    const { sections, defects } = parseText('', `v: ${text}`);
    const parsed = sections[0]?.parsed;
    const found = parsed?.entry?.value;
    if (sections.length === 1 && defects.length === 0 && parsed!.defects.length === 0 && found?.to === text.length + 3)
      return found;
  }
  return { kind: 'leaf', text: value, quoted: false, from: 0, to: 0 };
}

export function printNode(node: Node, style: Style): string {
  if (node.kind === 'leaf') return printLeaf(node, style);
  if (node.kind === 'list') return `[${node.items.map((item) => printNode(item, 'flow')).join(', ')}]`;
  if (node.entries.length === 0) return '{}';
  return `{ ${node.entries.map(({ key, value }) => `${printKey(key, 'flow')}: ${printNode(value, 'flow')}`).join(', ')} }`;
}

export const printKey = (key: string, style: Style): string => {
  const { sections, defects } = parseText('', style === 'flow' ? `v: { ${key}: v }` : `${key}: v`);
  const parsed = sections[0]?.parsed;
  const value = parsed?.entry?.value;
  const found = style === 'block' ? parsed?.entry?.key : value?.kind === 'map' ? value.entries[0]?.key : undefined;
  const plain = found === key && sections.length === 1 && defects.length === 0 && parsed!.defects.length === 0;
  return plain ? key : quoted(key);
};

/** Quotes stand only where the text would be read as something else without them. */
function printLeaf({ text, quoted: wasQuoted }: LeafNode, style: Style): string {
  const words = text === 'open' || text === 'unknown';
  return (words && wasQuoted) || !isPlain(text, style) ? quoted(text) : text;
}

/** Starts with a letter or digit and has nothing that YAML could take for a mark. */
const surelyPlain = /^[A-Za-z0-9](?:[\w .%/°µ·²³+-]*[\w.%/°µ·²³+-])?$/;

const isPlain = (text: string, style: Style): boolean =>
  surelyPlain.test(text) ||
  (text !== '' && (style === 'block' ? ['v: ', 'v:\n  - '] : ['v: { v: ', 'v: [']).every((head) => reads(text, head)));

function reads(text: string, head: string): boolean {
  const tail = head.endsWith('[') ? ']' : head.includes('{') ? ' }' : '';
  const { sections, defects } = parseText('', `${head}${text}${tail}`);
  const parsed = sections[0]?.parsed;
  const value = parsed?.entry?.value;
  const inner =
    value?.kind === 'list' ? value.items : value?.kind === 'map' ? value.entries.map((entry) => entry.value) : [value];
  const [only] = inner;
  return (
    sections.length === 1 &&
    defects.length + parsed!.defects.length === 0 &&
    inner.length === 1 &&
    only?.kind === 'leaf' &&
    only.text === text
  );
}

/** Single quotes; double ones where a character can only be written with a backslash. */
function quoted(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that a file must not hold as such.
  const odd = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufeff\ufffd\ud800-\udfff]/u;
  if (!odd.test(text)) return `'${text.replaceAll("'", "''")}'`;
  return JSON.stringify(text).replace(/[\u007f-\u009f\u2028\u2029\ufeff\ufffd]/g, (each) => {
    return `\\u${each.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });
}
