// Reads MathML back into the notation of formulas, as a person reads what stands on the paper: rows are not seen, so that
// only fraction lines, raised places, roots, fences and brackets group. It shares no code with what sets a formula.
import { readXml, type XmlElement } from '../../packages/core/src/pictures/xml-reader.support.ts';

/** The notation of a `math` element; throws at what is not well-formed, and at elements that a formula does not have. */
export function readMathml(text: string): string {
  const math = readXml(text);
  if (math.name !== 'math') throw new Error(`<${math.name}> is no formula`);
  return withSums(tokensOf(math)).join(' ');
}

const signs: Readonly<Record<string, string>> = {
  '·': '*',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '=': '==',
  '⌊': 'floor(',
  '⌋': ')',
  '⌈': 'ceil(',
  '⌉': ')',
};

function tokensOf(element: XmlElement): readonly string[] {
  const inside = element.children.map((child) => {
    if (typeof child === 'string') throw new Error(`'${child}' stands bare in <${element.name}>`);
    return child;
  });
  if (isBars(inside)) return ['abs(', ...inside.slice(1, -1).flatMap(partsOf), ')'];
  return inside.flatMap(partsOf);
}

const isBars = (inside: readonly XmlElement[]): boolean =>
  inside.length > 2 && [inside[0]!, inside.at(-1)!].every((each) => each.name === 'mo' && wordOf(each) === '|');

function partsOf(element: XmlElement): readonly string[] {
  const group = (index: number): string => {
    const child = element.children[index];
    if (child === undefined || typeof child === 'string') throw new Error(`<${element.name}> lacks a part`);
    return `( ${withSums(partsOf(child)).join(' ')} )`;
  };
  switch (element.name) {
    case 'mrow':
      return tokensOf(element);
    case 'mfrac':
      return [`( ${group(0)} / ${group(1)} )`];
    case 'msup':
      return raised(partsOf(element.children[0] as XmlElement), group(1));
    case 'msqrt':
      return [`sqrt( ${withSums(tokensOf(element)).join(' ')} )`];
    case 'mroot':
      if (group(1) !== '( 3 )') throw new Error(`a root of ${group(1)}`);
      return [`cbrt${group(0)}`];
    case 'msub':
      return [nameOf(element)];
    case 'mi':
    case 'mn':
      return [{ ln: 'log', π: 'pi' }[wordOf(element)] ?? wordOf(element)];
    case 'mo':
      return wordOf(element) === '\u2061' ? [] : [signs[wordOf(element)] ?? wordOf(element)];
    default:
      throw new Error(`<${element.name}> is in no formula`);
  }
}

function wordOf({ name, children }: XmlElement): string {
  const [word] = children;
  if (children.length !== 1 || typeof word !== 'string') throw new Error(`<${name}> holds no single word`);
  return word;
}

/** A letter with its index. */
const nameOf = (element: XmlElement): string =>
  element.children
    .map((child) =>
      (child as XmlElement).name === 'mrow'
        ? wordsIn(child as XmlElement)
            .join('_')
            .replace(/_,_/g, '_')
        : wordOf(child as XmlElement),
    )
    .join('_');

const wordsIn = (row: XmlElement): readonly string[] => row.children.map((child) => wordOf(child as XmlElement));

/** An exponent belongs to what stands right before it: a name, a number, a root, or what is in brackets or fences. */
function raised(base: readonly string[], exponent: string): readonly string[] {
  const last = base.at(-1) ?? '';
  if (/[/^]/.test(last) && last.startsWith('(')) throw new Error(`an exponent at ${last}, without brackets`);
  let from = base.length - 1;
  for (let depth = 0; last === ')'; from--) {
    if (base[from] === ')') depth++;
    if (base[from]?.endsWith('(') && --depth === 0) break;
  }
  // The name of a function stands before its brackets.
  if (/^\p{L}+$/u.test(base[from - 1] ?? '') && base[from] === '(') from--;
  return [...base.slice(0, from), '(', ...base.slice(from), '^', exponent, ')'];
}

/** A sum takes in all factors up to the next sign that binds less, or to the end of the brackets that it stands in. */
function withSums(tokens: readonly string[]): readonly string[] {
  const at = tokens.lastIndexOf('∑');
  if (at < 0) return tokens;
  let depth = 0;
  let end = at + 1;
  for (; end < tokens.length; end++) {
    const token = tokens[end]!;
    if (depth === 0 && end > at + 1 && /^(?:[-+<>,]|[<>=!]=|and)$/.test(token)) break;
    if (/\($/.test(token)) depth++;
    if (token === ')' && depth-- === 0) break;
  }
  return withSums([...tokens.slice(0, at), 'sum(', ...tokens.slice(at + 1, end), ')', ...tokens.slice(end)]);
}
