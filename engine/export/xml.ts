/** Values of attributes by name; those that are undefined are left out. */
export type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with its attributes and what stands in it, which is XML already. */
export function element(name: string, attributes: Attributes = {}, ...content: readonly string[]): string {
  const tag = openTag(name, attributes);
  const inside = content.join('');
  return inside === '' ? `${tag}/>` : `${tag}>${inside}</${name}>`;
}

/** A tag without its end: more attributes may follow. */
export function openTag(name: string, attributes: Attributes): string {
  return `<${name}${attributeText(attributes)}`;
}

/** Attributes as they stand in a tag, a blank before each. */
export function attributeText(attributes: Attributes): string {
  let text = '';
  for (const name in attributes) {
    const value = attributes[name];
    if (value !== undefined) text += ` ${name}="${escapedAttribute(String(value))}"`;
  }
  return text;
}

/** Text as it stands between tags. */
export function escapedText(text: string): string {
  const whole = wellFormed(text);
  if (!/[&<>\r]/.test(whole)) return whole;
  // A carriage return that is not named would be read as the end of a line.
  return whole
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('\r', '&#13;');
}

/** Ends of lines and tabs are named, as readers would turn them into spaces (XML 1.0, 3.3.3). */
function escapedAttribute(text: string): string {
  const escaped = escapedText(text);
  if (!/["\n\t]/.test(escaped)) return escaped;
  return escaped.replaceAll('"', '&quot;').replaceAll('\n', '&#10;').replaceAll('\t', '&#9;');
}

/** The mark of a lost letter for every character that no XML may hold (XML 1.0, 2.2: Char), half letters too. */
function wellFormed(text: string): string {
  // Hardly any text needs the second look, which takes pairs of half letters for what they are.
  if (!/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD]/.test(text)) return text;
  return text.replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD');
}
