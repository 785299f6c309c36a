import { strFromU8, unzipSync } from 'fflate';

/** A cell as it stands in the file, read without the library that wrote it. */
export interface WrittenCell {
  readonly formula: string | undefined;
  readonly type: string | undefined;
  readonly cached: string | undefined;
  readonly style: number;
}

export interface WrittenSheet {
  readonly xml: string;
  readonly cells: ReadonlyMap<string, WrittenCell>;
}

export interface WrittenBook {
  readonly parts: ReadonlyMap<string, string>;
  readonly sheets: ReadonlyMap<string, WrittenSheet>;
  /** Whether each cell style is locked, by its number. */
  readonly locked: readonly boolean[];
  /** Number format codes, by style number. */
  readonly formats: readonly (string | undefined)[];
  readonly names: ReadonlyMap<string, string>;
}

export function plainText(xml: string): string {
  const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };
  return xml.replace(/&(lt|gt|quot|apos|amp);/g, (all, name: string) => entities[name] ?? all);
}

function inside(xml: string, tag: string): string | undefined {
  const found = new RegExp(`<${tag}(?:\\s[^>]*)?>([^<]*)</${tag}>`).exec(xml)?.[1];
  return found === undefined ? undefined : plainText(found);
}

function cellsOf(xml: string): ReadonlyMap<string, WrittenCell> {
  const cells = new Map<string, WrittenCell>();
  for (const [, attributes = '', body = ''] of xml.matchAll(/<c\b([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g)) {
    const attribute = (name: string): string | undefined =>
      new RegExp(`\\b${name}="([^"]*)"`).exec(attributes)?.[1];
    cells.set(attribute('r') ?? '', {
      formula: inside(body, 'f'),
      type: attribute('t'),
      cached: inside(body, 'v'),
      style: Number(attribute('s') ?? 0),
    });
  }
  return cells;
}

export function writtenBook(bytes: Uint8Array): WrittenBook {
  const parts = new Map(Object.entries(unzipSync(bytes)).map(([name, part]) => [name, strFromU8(part)]));
  const book = parts.get('xl/workbook.xml') ?? '';
  const relations = parts.get('xl/_rels/workbook.xml.rels') ?? '';
  const sheets = new Map<string, WrittenSheet>();
  for (const [, name = '', id = ''] of book.matchAll(/<sheet [^>]*name="([^"]*)"[^>]*r:id="([^"]*)"/g)) {
    const relation =
      [...relations.matchAll(/<Relationship [^>]*>/g)].find(([tag]) => tag.includes(`Id="${id}"`))?.[0] ?? '';
    const target = /Target="([^"]*)"/.exec(relation)?.[1] ?? '';
    const xml = parts.get(`xl/${target}`) ?? '';
    sheets.set(plainText(name), { xml, cells: cellsOf(xml) });
  }
  const styles = parts.get('xl/styles.xml') ?? '';
  const formatCodes = new Map(
    [...styles.matchAll(/<numFmt numFmtId="(\d+)" formatCode="([^"]*)"/g)].map(([, id = '', code = '']) => [
      id,
      plainText(code),
    ]),
  );
  formatCodes.set('49', '@');
  const crossed = /<cellXfs[^>]*>([\s\S]*?)<\/cellXfs>/.exec(styles)?.[1] ?? '';
  const each = [...crossed.matchAll(/<xf\b[^>]*?(?:\/>|>[\s\S]*?<\/xf>)/g)].map(([xf]) => xf);
  const names = [...book.matchAll(/<definedName [^>]*?\bname="([^"]*)"[^>]*>([^<]*)</g)].map(
    ([, name = '', to = '']): [string, string] => [name, plainText(to)],
  );
  return {
    parts,
    sheets,
    locked: each.map((xf) => !/<protection[^>]*locked="(?:0|false)"/.test(xf)),
    formats: each.map((xf) => formatCodes.get(/numFmtId="(\d+)"/.exec(xf)?.[1] ?? '')),
    names: new Map(names),
  };
}
