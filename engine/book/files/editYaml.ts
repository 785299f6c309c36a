import { isMap, isScalar, type Pair, parseDocument } from 'yaml';

/**
 * Sets one line of a book.yaml and leaves every other character of it as it is: remarks, order, blank lines, line
 * ends. A name that is missing gets a line at the end; an empty text leaves the name with nothing after its colon.
 */
export function editYaml(source: string, name: string, text: string): string {
  const document = parseDocument(source, { keepSourceTokens: true });
  const root = document.contents;
  const pair = isMap(root) ? root.items.find(({ key }) => isScalar(key) && key.value === name) : undefined;
  if (pair === undefined) return withLine(source, name, text, isMap(root) && root.flow === true);
  const [start, end] = valueRange(pair, source);
  const before = source.slice(0, start);
  // Between the colon and a figure stands a blank.
  const blank = text !== '' && before.endsWith(':') ? ' ' : '';
  return `${before}${blank}${scalar(text)}${source.slice(end)}`;
}

/** Where the value of a line stands, or would. */
function valueRange({ key, value }: Pair, source: string): [number, number] {
  const written = isScalar(value) ? value.range : undefined;
  if (written !== undefined && written !== null && written[0] < written[1]) return [written[0], written[1]];
  const end = isScalar(key) ? (key.range?.[1] ?? 0) : 0;
  const colon = source.indexOf(':', end) + 1;
  return [colon, colon];
}

function withLine(source: string, name: string, text: string, flow: boolean): string {
  if (flow) {
    const at = source.lastIndexOf('}');
    const isEmpty = /\{\s*$/.test(source.slice(0, at));
    return `${source.slice(0, at).trimEnd()}${isEmpty ? '' : ', '}${name}: ${scalar(text)}${source.slice(at)}`;
  }
  const lineEnd = /\r\n|\n|\r/.exec(source)?.[0] ?? '\n';
  // An end mark closes the document: what follows it is another one.
  const end = /^\.\.\.\s*$/m.exec(source)?.index ?? source.length;
  const head = source.slice(0, end);
  const open = head === '' || /[\r\n]$/.test(head) ? '' : lineEnd;
  return `${head}${open}${name}: ${scalar(text)}${lineEnd}${source.slice(end)}`;
}

/** Text as it stands after a colon: in quotation marks where YAML would read it as something else. */
function scalar(text: string): string {
  const plain = /^[\p{L}\d][^#:\r\n"'{}[\]&*!|>%@`]*(?: ?%)?$/u.test(text) || /^-?\d[\d.,]*$/.test(text);
  return text === '' || plain ? text : JSON.stringify(text);
}
