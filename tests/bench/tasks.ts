/**
 * One measured task in a process of its own, so that peaks of memory do not mix.
 *   node tasks.mjs <task> <products> <folder of the starter book> <templates> <scratch file>
 * Prints one line of JSON: { ms, peakMb, cells }.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { HyperFormula } from 'hyperformula';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { registerCords } from '../../engine/calc/cordPlugin.ts';
import { engineCells } from '../../engine/calc/evaluate.ts';
import { registerRounding } from '../../engine/calc/roundingPlugin.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { priceBook, readSheetFiles, type Source } from '../../engine/index.ts';
import { PlanIndex } from '../../engine/sheets/planIndex.ts';
import { bigBook } from './bigBook.ts';
import { readCells, writeCells } from './cellFile.ts';
import { timeDraws } from './drawTask.ts';
import { engineOptions } from './engineOptions.ts';
import { modelColumns, modelPlan } from './modelPlan.ts';
import { plainWorkbook } from './plainWorkbook.ts';

const [task = '', products = '100', starter = '', templates = '', scratch = ''] = process.argv.slice(2);

function files(folder: string, prefix: string, ending: RegExp): Map<string, string> {
  return new Map(
    readdirSync(folder)
      .filter((name) => ending.test(name))
      .map((name) => [prefix + name, readFileSync(join(folder, name), 'utf8')]),
  );
}

function source(): Source {
  return {
    book: bigBook(files(starter, '', /\.(yaml|csv)$/), Number(products)),
    sheets: readSheetFiles(files(join(templates, 'sheets'), 'templates/sheets/', /\.yaml$/)),
    tables: files(templates, '', /\.csv$/),
  };
}

function report(ms: number, cells = 0): void {
  process.stdout.write(`${JSON.stringify({ ms, peakMb: process.resourceUsage().maxRSS / 1024, cells })}\n`);
}

switch (task) {
  case 'sennit': {
    const given = source();
    const start = performance.now();
    const { values, problems } = priceBook(given);
    const ms = performance.now() - start;
    if (values === undefined) throw new Error(JSON.stringify(problems.slice(0, 3)));
    report(ms);
    break;
  }
  case 'cells': {
    const { plan } = priceBook(source());
    if (plan === undefined) throw new Error('The bench book has errors');
    report(0, writeCells(scratch, engineCells(new PlanIndex(plan))));
    break;
  }
  case 'bare': {
    registerRounding();
    registerCords();
    const cells = await readCells(scratch);
    const start = performance.now();
    const engine = HyperFormula.buildFromSheets(cells, engineOptions);
    for (const id of Object.keys(cells)) engine.getSheetValues(engine.getSheetId(id) ?? 0);
    report(performance.now() - start);
    break;
  }
  case 'model': {
    const start = performance.now();
    const plan = modelPlan(Number(products));
    const values = calculate(plan);
    const ms = performance.now() - start;
    if (typeof values.get('items', `f${modelColumns}`, 0) !== 'number')
      throw new Error('The model gives nothing');
    report(ms);
    break;
  }
  case 'model-cells': {
    report(0, writeCells(scratch, engineCells(new PlanIndex(modelPlan(Number(products))))));
    break;
  }
  case 'draws': {
    // Of the starter book as it is shipped; `products` says how many draws.
    const { plan, values } = priceBook({ ...source(), book: files(starter, '', /\.(yaml|csv)$/) });
    if (plan === undefined || values === undefined) throw new Error('The starter book has errors');
    process.stdout.write(JSON.stringify(timeDraws(plan, values, Number(products), 30)));
    break;
  }
  case 'workbook':
  case 'ods': {
    const { plan, values } = priceBook(source());
    if (plan === undefined || values === undefined) throw new Error('The bench book has errors');
    const about = { date: '2026-11-25', version: 'bench' };
    const start = performance.now();
    const bytes = await workbook(plan, values, about, task === 'ods' ? 'ods' : 'xlsx');
    const ms = performance.now() - start;
    writeFileSync(scratch, bytes);
    report(ms);
    break;
  }
  case 'plain': {
    const { plan, values } = priceBook(source());
    if (plan === undefined || values === undefined) throw new Error('The bench book has errors');
    const start = performance.now();
    const bytes = await plainWorkbook(plan, values);
    const ms = performance.now() - start;
    writeFileSync(scratch, bytes);
    report(ms);
    break;
  }
  case 'book': {
    for (const [name, text] of source().book) writeFileSync(join(scratch, name), text);
    report(0);
    break;
  }
  default:
    throw new Error(`No task ${task}`);
}
