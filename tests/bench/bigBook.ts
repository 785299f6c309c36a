import type { BookFiles } from '../../engine/index.ts';
import { historyTables } from '../support/historyTables.ts';

/**
 * The starter book with its products repeated to a wanted number: the same weaves, cords and parts, every
 * copy under its own name.
 */
export function bigBook(starter: BookFiles, products: number): Map<string, string> {
  const files = new Map(starter);
  // Size runs would make more products than are asked for: their rows get a measure of their own.
  const productLines = lines(files.get('products.csv')).map((line) =>
    line.replace(/,(?:wrist|neck),,/, ',,6 in,'),
  );
  const names = productLines.slice(1).map((line) => line.split(',')[0] ?? '');
  const copies = Math.ceil(products / names.length);
  const copied = (all: readonly string[], most = Number.POSITIVE_INFINITY): string => {
    const out = [all[0] ?? ''];
    for (let copy = 0; copy < copies; copy += 1) {
      for (const line of all.slice(1)) {
        const [name = '', ...rest] = line.split(',');
        if (out.length > most) break;
        if (names.includes(name)) out.push([`${name} ${copy}`, ...rest].join(','));
        else if (copy === 0) out.push(line);
      }
    }
    return out.join('\n');
  };
  const wanted = copied(productLines, products);
  const kept = new Set(wanted.split('\n').map((line) => line.split(',')[0]));
  const only = (text: string): string =>
    text
      .split('\n')
      .filter(
        (line, at) => at === 0 || kept.has(line.split(',')[0]) || !/ \d+$/.test(line.split(',')[0] ?? ''),
      )
      .join('\n');
  files.set('products.csv', wanted);
  for (const file of ['parts.csv', 'work.csv', 'ends.csv']) {
    files.set(file, only(copied(lines(files.get(file)))));
  }
  const others = [
    'set_prices.csv',
    'make.csv',
    'sales_mix.csv',
    'price_breaks.csv',
    'scenarios.csv',
    'ranges.csv',
    ...historyTables,
  ];
  for (const file of others) files.delete(file);
  return files;
}

function lines(text = ''): string[] {
  return text.split(/\r?\n/).filter((line) => line.trim() !== '');
}
