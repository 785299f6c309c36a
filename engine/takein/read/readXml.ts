import { SaxesParser } from 'saxes';

/** XML that breaks its own rules, or brings entities of its own. */
export class UnreadableXml extends Error {}

export interface XmlReader {
  open(name: string, attributes: Readonly<Record<string, string>>): void;
  close(name: string): void;
  text?(text: string): void;
}

/**
 * Reads XML from its bytes, all of them or piece by piece, as a row of openings, texts and closings. A document type is refused: no workbook has one,
 * and entities that expand to each other live there.
 */
export function readXml(source: Uint8Array | Iterable<Uint8Array>, reader: XmlReader): void {
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw new UnreadableXml(error.message);
  });
  parser.on('doctype', () => {
    throw new UnreadableXml('a document type');
  });
  let depth = 0;
  parser.on('opentag', ({ name, attributes }) => {
    depth += 1;
    if (depth > deepest) throw new UnreadableXml('elements within elements without end');
    reader.open(name, attributes);
  });
  parser.on('closetag', ({ name }) => {
    depth -= 1;
    reader.close(name);
  });
  parser.on('text', (text) => reader.text?.(text));
  parser.on('cdata', (text) => reader.text?.(text));
  let decoder: InstanceType<typeof TextDecoder> | undefined;
  for (const bytes of source instanceof Uint8Array ? [source] : source) {
    decoder ??= new TextDecoder(encodingOf(bytes));
    for (let at = 0; at < bytes.length; at += chunk)
      parser.write(decoder.decode(bytes.subarray(at, at + chunk), { stream: true }));
  }
  if (decoder !== undefined) parser.write(decoder.decode());
  parser.close();
}

/** By the mark at the beginning; without one it is UTF-8 (XML 1.0, 4.3.3). */
function encodingOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
}

/** Workbooks nest their elements to about twenty. */
const deepest = 200;

/** A long text is cut up, as the parser keeps what it was given. */
const chunk = 1_000_000;
