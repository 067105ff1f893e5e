// Well-formed XML from parts: elements, attributes, text.

/** Attributes in the order given; what is undefined is left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element; `inside` is XML already. Numbers are written to a tenth. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  let written = '';
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined) written += ` ${key}="${typeof value === 'number' ? tenth(value) : escapeXml(value)}"`;
  }
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** To a tenth, without a minus before nothing. */
export const tenth = (value: number): string => String(Math.round(value * 10) / 10 + 0);

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
  '\n': '&#10;',
};

/** Characters that XML 1.0 does not know (section 2.2) are written as the sign for what cannot be shown. */
export const escapeXml = (text: string): string =>
  text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replace(/[&<>"'\n]/g, (character) => entities[character]!);
