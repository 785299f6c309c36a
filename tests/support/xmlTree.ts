import { SaxesParser } from 'saxes';

/** An element as a strict parser reads it. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Elements and pieces of text, in order. */
  readonly children: readonly (XmlElement | string)[];
}

/** Reads a part of a file; throws on what is not well formed, and on a prefix that stands for nothing. */
export function xmlTree(xml: string): XmlElement {
  const parser = new SaxesParser({ xmlns: true });
  const open: { name: string; attributes: Record<string, string>; children: (XmlElement | string)[] }[] = [
    { name: '', attributes: {}, children: [] },
  ];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const values = Object.entries(attributes).map(([key, { value }]): [string, string] => [key, value]);
    open.push({ name, attributes: Object.fromEntries(values), children: [] });
  });
  parser.on('text', (text) => open.at(-1)?.children.push(text));
  parser.on('closetag', () => {
    const done = open.pop();
    if (done !== undefined) open.at(-1)?.children.push(done);
  });
  parser.write(xml).close();
  const root = open[0]?.children.find((child) => typeof child !== 'string');
  if (root === undefined) throw new Error('no element');
  return root;
}

export function childElements(parent: XmlElement, name?: string): XmlElement[] {
  return parent.children.filter(
    (child): child is XmlElement => typeof child !== 'string' && (name === undefined || child.name === name),
  );
}

/** Every element of that name, however deep. */
export function elementsWithin(parent: XmlElement, name: string): XmlElement[] {
  return childElements(parent).flatMap((child) => [
    ...(child.name === name ? [child] : []),
    ...elementsWithin(child, name),
  ]);
}
