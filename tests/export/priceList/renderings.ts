import { strFromU8, unzipSync } from 'fflate';
import Papa from 'papaparse';
import { priceListCsv } from '../../../engine/export/priceList/priceListCsv.ts';
import { priceListPage } from '../../../engine/export/priceList/priceListPage.ts';
import { priceListWorkbook } from '../../../engine/export/priceList/priceListWorkbook.ts';
import type { MadeList } from './lists.ts';

/** Every rendering of a list as text: the page, the CSV, the JSON, and each part of the workbook unzipped. */
export async function renderings({ list, settings }: MadeList): Promise<ReadonlyMap<string, string>> {
  const parts = unzipSync(await priceListWorkbook(list, settings, '2026-11-26'));
  return new Map([
    ['page', priceListPage(list, settings)],
    ['csv', priceListCsv(list, settings)],
    ['json', JSON.stringify(list, null, 1)],
    ...Object.entries(parts).map(([name, bytes]): [string, string] => [name, strFromU8(bytes)]),
  ]);
}

/** The words that people read, without the styles and tags around them. */
export function words(name: string, text: string): string {
  if (name === 'page') return text.replace(/<style>.*?<\/style>|<meta[^>]*>/gs, ' ').replace(/<[^>]*>/g, ' ');
  if (name === 'xl/sharedStrings.xml') return text.replace(/<rPr>.*?<\/rPr>|<[^>]*>/gs, ' ');
  // Of a sheet, values that are no numbers of shared texts.
  if (name.startsWith('xl/worksheets/sheet'))
    return [...text.matchAll(/<c (?![^>]*t="s")[^>]*><v>([^<]*)<\/v>/g)].map(([, value]) => value).join(' ');
  // Commas part cells there, and would make one number of two.
  if (name === 'csv') return Papa.parse<string[]>(text).data.flat().join('\n');
  return '';
}
