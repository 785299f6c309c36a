import { readXml } from '../readXml.ts';
import { showsDate } from './dateFormat.ts';

/** A name without the prefix that its writer chose. */
export function local(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

/** Characters that XML has no place for are written `_x000D_` (ECMA-376 part 1, 22.9.2.19). */
export function unescaped(text: string): string {
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}

/** Sheets by title, with the id of their part, and whether days are counted from 1904. */
export function readBookPart(bytes: Uint8Array): {
  readonly sheets: readonly { readonly title: string; readonly id: string }[];
  readonly from1904: boolean;
} {
  const sheets: { title: string; id: string }[] = [];
  let from1904 = false;
  readXml(bytes, {
    open: (name, attributes) => {
      if (local(name) === 'sheet') {
        const id = Object.entries(attributes).find(([key]) => /:id$/.test(key))?.[1] ?? '';
        sheets.push({ title: unescaped(attributes.name ?? ''), id });
      } else if (local(name) === 'workbookPr') from1904 = /^(1|true)$/.test(attributes.date1904 ?? '');
    },
    close: () => undefined,
  });
  return { sheets, from1904 };
}

/** Parts that another part leads to, by the id that it calls them by; paths within the archive. */
export function readRelations(bytes: Uint8Array, folder: string): Map<string, string> {
  const targets = new Map<string, string>();
  readXml(bytes, {
    open: (name, { Id = '', Target = '', TargetMode = '' }) => {
      if (local(name) !== 'Relationship' || TargetMode === 'External') return;
      targets.set(
        Id,
        Target.startsWith('/') ? Target.slice(1) : `${folder}${Target}`.replace(/[^/]+\/\.\.\//g, ''),
      );
    },
    close: () => undefined,
  });
  return targets;
}

/** The texts that cells refer to by number; how a text is read aloud is left out. */
export function readSharedTexts(bytes: Uint8Array | undefined): string[] {
  const texts: string[] = [];
  if (bytes === undefined) return texts;
  let text = '';
  let inText = false;
  let aloud = 0;
  readXml(bytes, {
    open: (name) => {
      const what = local(name);
      if (what === 'si') text = '';
      else if (what === 'rPh') aloud += 1;
      else if (what === 't') inText = true;
    },
    text: (part) => {
      if (inText && aloud === 0) text += part;
    },
    close: (name) => {
      const what = local(name);
      if (what === 't') inText = false;
      else if (what === 'rPh') aloud -= 1;
      else if (what === 'si') texts.push(unescaped(text));
    },
  });
  return texts;
}

/** Whether each cell style, by its number, shows its value as a day or a time. */
export function readDateStyles(bytes: Uint8Array | undefined): boolean[] {
  const styles: boolean[] = [];
  if (bytes === undefined) return styles;
  const codes = new Map<number, string>();
  let inCells = false;
  readXml(bytes, {
    open: (name, attributes) => {
      const what = local(name);
      if (what === 'numFmt') codes.set(Number(attributes.numFmtId), attributes.formatCode ?? '');
      else if (what === 'cellXfs') inCells = true;
      else if (what === 'xf' && inCells) {
        const id = Number(attributes.numFmtId ?? 0);
        styles.push(showsDate(id, codes.get(id)));
      }
    },
    close: (name) => {
      if (local(name) === 'cellXfs') inCells = false;
    },
  });
  return styles;
}
