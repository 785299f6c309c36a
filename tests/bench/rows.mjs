// What the table measures: for each task and number of products, what runs, against what, and the limit of the ratio.
import { join } from 'node:path';
import { inTurn, nodeRun, officeRun, taskRun } from './measure.mjs';

const wideSizes = [100, 1_000, 10_000, 100_000];
/** exceljs holds a workbook whole, and cannot hold that of a hundred thousand products. */
const workbookSizes = [100, 1_000, 10_000];

/** Seconds that a search for a cutting plan is given. */
const cutSeconds = 20;
/** Products of a batch that is cut, three of each. */
const cutProducts = 20;

const roundsOf = (products) => (products > 1_000 ? 1 : 3);

/**
 * Each row: sizes (undefined where the demo book is measured as it is), the peer's name, the limit of ours over
 * theirs, and how to measure it: { ours: { ms, peakMb }, theirs }, where theirs is undefined if it is missing.
 */
export const rows = {
  start: {
    peer: 'bare Node',
    limit: 5,
    measure: ({ cli, starter }) =>
      inTurn(
        11,
        () => nodeRun([cli, 'price', starter]),
        () => nodeRun(['-e', '']),
      ),
  },
  price: {
    sizes: wideSizes,
    // Beyond this hyperformula runs out of memory.
    peerTo: 10_000,
    peer: 'hyperformula, same cells',
    limit: 0.05,
    measure: ({ task, scratch }, products, hasPeer) => {
      const cells = join(scratch, 'cells.ndjson');
      if (hasPeer) task('cells', products, cells);
      return inTurn(
        roundsOf(products),
        () => task('sennit', products, ''),
        hasPeer ? () => task('bare', products, cells) : undefined,
      );
    },
  },
  workbook: {
    sizes: workbookSizes,
    peer: 'exceljs, same cells, nothing else',
    limit: 2,
    measure: ({ task, scratch }, products) =>
      inTurn(
        roundsOf(products),
        () => task('workbook', products, join(scratch, 'ours.xlsx')),
        () => task('plain', products, join(scratch, 'plain.xlsx')),
      ),
  },
  ods: {
    sizes: workbookSizes,
    peer: 'LibreOffice, .xlsx to .ods',
    limit: 1,
    measure: ({ task, scratch }, products) => {
      const file = join(scratch, 'given.xlsx');
      task('workbook', products, file);
      return inTurn(
        roundsOf(products),
        () => task('ods', products, join(scratch, 'ours.ods')),
        () => officeRun(file, 'ods', scratch),
      );
    },
  },
  whatif: {
    sizes: wideSizes,
    peer: 'sennit price, same book',
    limit: 4,
    measure: ({ cli, bookOf }, products) => {
      const book = bookOf(products);
      return inTurn(
        roundsOf(products),
        () => nodeRun([cli, 'whatif', book, 'wage = 25']),
        () => nodeRun([cli, 'price', book]),
      );
    },
  },
  risk: {
    peer: 'loops written by hand, 10,000 draws',
    limit: 3,
    measure: ({ bundle, starter, templates }) => {
      // Both sides run in turn in one process, which holds their answers equal.
      const found = taskRun(bundle, ['draws', 10_000, starter, templates, '']);
      return { ours: { ms: found.programMs }, theirs: { ms: found.handMs } };
    },
  },
  cut: {
    sizes: wideSizes,
    peer: `the ${cutSeconds} s it is given`,
    limit: 1,
    measure: ({ cli, bookOf, namesOf }, products) => {
      const book = bookOf(products);
      const make = namesOf(products)
        .slice(0, cutProducts)
        .map((name) => `${name}=3`);
      return inTurn(
        roundsOf(products),
        () => nodeRun([cli, 'cut', book, ...make, '--time', String(cutSeconds)]),
        () => ({ ms: cutSeconds * 1000 }),
      );
    },
  },
  takein: {
    sizes: workbookSizes,
    peer: 'LibreOffice, .xlsx to .ods',
    limit: 1,
    measure: ({ cli, bookOf, scratch }, products) => {
      const book = bookOf(products);
      const file = join(scratch, `book-${products}.xlsx`);
      nodeRun([cli, 'workbook', book, '--out', file, '--replace']);
      return inTurn(
        roundsOf(products),
        () => nodeRun([cli, 'takein', file, book, '--dry-run']),
        () => officeRun(file, 'ods', scratch),
      );
    },
  },
  model: {
    sizes: [50_000],
    peer: 'hyperformula, same cells',
    limit: 0.05,
    measure: ({ task, scratch }, products) => {
      const cells = join(scratch, 'model.ndjson');
      task('model-cells', products, cells);
      return inTurn(
        3,
        () => task('model', products, ''),
        () => task('bare', products, cells),
      );
    },
  },
};
