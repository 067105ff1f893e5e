// The boxes of the texts of an SVG, by their estimated widths: what a test holds against each other.
import { textWidth } from './text-width.ts';
import { elementsIn, readXml, textIn } from './xml-reader.support.ts';

export interface TextBox {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export function textBoxes(svg: string): readonly TextBox[] {
  const root = readXml(svg);
  const usual = Number(root.attributes['font-size']);
  return elementsIn(root, 'text').map((element) => {
    const { x, y, 'text-anchor': anchor = 'start', 'font-size': size, 'font-weight': weight } = element.attributes;
    const px = Number(size ?? usual);
    const width = element.children.reduce((sum, child) => {
      const [text, strong] =
        typeof child === 'string' ? [child, weight] : [textIn(child), child.attributes['font-weight'] ?? weight];
      return sum + textWidth(text, Number(strong ?? 400) > 500) * px;
    }, 0);
    const left = Number(x) - width * { start: 0, middle: 0.5, end: 1 }[anchor as 'start' | 'middle' | 'end'];
    return {
      text: textIn(element),
      left,
      right: left + width,
      top: Number(y) - 0.72 * px,
      bottom: Number(y) + 0.1 * px,
    };
  });
}

/** Pairs of texts that run into each other; coordinates are rounded to a tenth. */
export function overlaps(boxes: readonly TextBox[]): readonly string[] {
  const found: string[] = [];
  for (const [index, a] of boxes.entries()) {
    for (const b of boxes.slice(index + 1)) {
      const apart =
        a.right <= b.left + 0.2 || b.right <= a.left + 0.2 || a.bottom <= b.top + 0.2 || b.bottom <= a.top + 0.2;
      if (!apart) found.push(`'${a.text}' and '${b.text}'`);
    }
  }
  return found;
}
