/** What the help of a command says at its end: what it writes, and what to read besides. */
interface ManualEntry {
  readonly writes: string;
  readonly seeAlso: readonly string[];
}

const none = 'no file';
const onlyOut = 'the file that --out names, all of it or nothing';
const withWrite = (what: string): string => `no file; with --write ${what}, all or nothing`;

const entries: Readonly<Partial<Record<string, ManualEntry>>> = {
  new: { writes: 'the folder of the new book', seeAlso: ['check', 'price'] },
  check: { writes: none, seeAlso: ['price', 'docs/errors.md'] },
  price: { writes: none, seeAlso: ['pricelist', 'whatif', 'workbook'] },
  pricelist: {
    writes: 'a file for each channel, or the one that --out names; with --json none',
    seeAlso: ['price', 'docs/pricelist.md'],
  },
  breakeven: { writes: none, seeAlso: ['mix', 'price'] },
  mix: { writes: none, seeAlso: ['breakeven', 'docs/mix.md'] },
  cord: { writes: none, seeAlso: ['fit', 'docs/cord.md', 'docs/sizing.md'] },
  fit: { writes: withWrite('weaves.csv of the book'), seeAlso: ['cord', 'docs/samples.md'] },
  cut: { writes: withWrite('stock.csv of the book'), seeAlso: ['cards', 'workbook', 'docs/cutting.md'] },
  cards: { writes: onlyOut, seeAlso: ['cut', 'docs/cards.md'] },
  whatif: { writes: none, seeAlso: ['sensitivity', 'solve', 'risk', 'docs/whatif.md'] },
  sensitivity: { writes: none, seeAlso: ['whatif', 'solve', 'risk', 'docs/sweeps.md'] },
  solve: { writes: none, seeAlso: ['whatif', 'sensitivity', 'docs/sweeps.md'] },
  risk: { writes: none, seeAlso: ['sensitivity', 'docs/sweeps.md'] },
  report: { writes: onlyOut, seeAlso: ['price', 'whatif', 'docs/report.md'] },
  workbook: { writes: onlyOut, seeAlso: ['takein', 'price', 'docs/takein.md'] },
  takein: {
    writes: 'files of the book, once you said yes, all or none',
    seeAlso: ['workbook', 'docs/takein.md'],
  },
  stock: { writes: none, seeAlso: ['variance', 'month', 'docs/stock.md'] },
  variance: { writes: none, seeAlso: ['stock', 'docs/stock.md'] },
  month: {
    writes: 'the file that --out names, and that of --journal; with --close a file in closed/ of the book',
    seeAlso: ['stock', 'variance', 'docs/month.md'],
  },
  completion: { writes: none, seeAlso: [] },
};

export const exitCodes: readonly (readonly [code: number, means: string])[] = [
  [0, 'done'],
  [1, 'the book has errors, or a file is in the way'],
  [2, 'wrong command line'],
  [3, "a fault of Sennit's own"],
];

export const exitCodesText: string = exitCodes.map(([code, means]) => `${code} ${means}`).join('; ');

/** The end of a command's help. */
export function manualEnd(command: string): string {
  const { writes, seeAlso = [] } = entries[command] ?? {};
  const also = seeAlso.map((each) => (each.startsWith('docs/') ? each : `sennit ${each}`));
  return [
    ...(writes === undefined ? [''] : ['', `Writes: ${writes}.`]),
    `Exit codes: ${exitCodesText}.`,
    ...(also.length === 0 ? [] : [`See also: ${also.join(', ')}`]),
  ].join('\n');
}
