// Reads XML as strictly as a browser does, for tests: anything that is not well-formed throws. It shares no code with what
// writes the XML.

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly (XmlElement | string)[];
}

export function readXml(text: string): XmlElement {
  const reader = new Reader(text);
  const root = reader.element();
  reader.skipSpace();
  if (!reader.atEnd()) throw new Error(`something follows the root element: ${text.slice(reader.at, reader.at + 40)}`);
  return root;
}

/** All elements of a name, the root included, in the order of the text. */
export const elementsIn = (root: XmlElement, name?: string): readonly XmlElement[] => [
  ...(name === undefined || root.name === name ? [root] : []),
  ...root.children.flatMap((child) => (typeof child === 'string' ? [] : elementsIn(child, name))),
];

/** The text in an element and all that are in it. */
export const textIn = ({ children }: XmlElement): string =>
  children.map((child) => (typeof child === 'string' ? child : textIn(child))).join('');

class Reader {
  readonly text: string;
  at = 0;

  constructor(text: string) {
    // XML 1.0, section 2.2: what a document may hold at all. A surrogate without its other half is none of it.
    const foreign = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/u.exec(text);
    if (foreign) throw new Error(`a character that XML does not know: ${JSON.stringify(foreign[0])}`);
    this.text = text;
  }

  atEnd(): boolean {
    return this.at >= this.text.length;
  }

  skipSpace(): void {
    while (/\s/.test(this.text[this.at] ?? '')) this.at++;
  }

  element(): XmlElement {
    this.#expect('<');
    const name = this.#name();
    const attributes: Record<string, string> = {};
    for (;;) {
      const before = this.at;
      this.skipSpace();
      if (this.#take('/>')) return { name, attributes, children: [] };
      if (this.#take('>')) return { name, attributes, children: this.#content(name) };
      if (this.at === before) throw new Error(`no space before an attribute of <${name}>`);
      const key = this.#name();
      if (key in attributes) throw new Error(`<${name}> has ${key} twice`);
      this.#expect('="');
      const end = this.text.indexOf('"', this.at);
      if (end < 0) throw new Error(`${key} of <${name}> does not end`);
      attributes[key] = decode(this.text.slice(this.at, end));
      this.at = end + 1;
    }
  }

  #content(name: string): readonly (XmlElement | string)[] {
    const children: (XmlElement | string)[] = [];
    for (;;) {
      const next = this.text.indexOf('<', this.at);
      if (next < 0) throw new Error(`<${name}> does not end`);
      if (next > this.at) children.push(decode(this.text.slice(this.at, next)));
      this.at = next;
      if (this.#take('</')) {
        const end = this.#name();
        if (end !== name) throw new Error(`<${name}> ends with </${end}>`);
        this.#expect('>');
        return children;
      }
      children.push(this.element());
    }
  }

  #name(): string {
    const found = /^[A-Za-z_][\w.:-]*/.exec(this.text.slice(this.at, this.at + 80))?.[0];
    if (found === undefined) throw new Error(`a name is due at ${this.text.slice(this.at, this.at + 40)}`);
    this.at += found.length;
    return found;
  }

  #take(word: string): boolean {
    if (!this.text.startsWith(word, this.at)) return false;
    this.at += word.length;
    return true;
  }

  #expect(word: string): void {
    if (!this.#take(word)) throw new Error(`${word} is due at ${this.text.slice(this.at, this.at + 40)}`);
  }
}

const names: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function decode(raw: string): string {
  if (/[<>]/.test(raw)) throw new Error(`a bare bracket in ${raw}`);
  return raw.replace(/&([^;&]*)(;?)/g, (whole, name: string, end: string) => {
    const code = /^#(\d+)$/.exec(name)?.[1];
    const character = code === undefined ? names[name] : String.fromCodePoint(Number(code));
    if (end === '' || character === undefined) throw new Error(`${whole} is no entity`);
    return character;
  });
}
