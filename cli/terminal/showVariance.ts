import { showNumber, showValue, type VarianceReport } from '../../engine/index.ts';
import type { ShowHow } from './showHow.ts';
import { type TableColumn, table, wrap } from './table.ts';

const right = (heading: string): TableColumn => ({ heading, align: 'right' });

/** Variances as text: all of them first, then by material, by product, and overhead. */
export function showVariance(report: VarianceReport, how: ShowHow): string {
  const lines = (texts: readonly string[]): string =>
    texts.flatMap((text) => wrap(text, how.width)).join('\n');
  const parts = [
    lines([summary(report, how)]),
    materials(report, how),
    products(report, how),
    lines([...overhead(report, how), 'Positive is above plan (unfavourable), negative below plan.']),
    `Next: ${how.command} stock ${how.book} --from ${report.from} --to ${report.to}   what came and went`,
  ];
  return `${parts
    .map((part) => part.trimEnd())
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

function money(value: number, how: ShowHow): string {
  return showValue(value, 'money', how.settings);
}

function word(value: number): string {
  return value > 0 ? 'above plan' : value < 0 ? 'below plan' : 'as planned';
}

function summary(report: VarianceReport, how: ShowHow): string {
  const { totals, currency, from, to } = report;
  const reasons = [
    `prices of materials ${money(totals.price, how)}`,
    `their use ${money(totals.usage, how)}`,
    `spoiled and missing ${money(totals.lost, how)}`,
    `wage rates ${money(totals.wageRate, how)}`,
    `bench time ${money(totals.efficiency, how)}`,
  ];
  const far = money(Math.abs(totals.total), how);
  const first = totals.total === 0 ? 'as planned' : `${far} ${currency} ${word(totals.total)}`;
  return `Materials and labour from ${from} to ${to} were ${first}: ${reasons.join(', ')}.`;
}

function materials(report: VarianceReport, how: ShowHow): string {
  const columns: TableColumn[] = [
    { heading: `Material, ${report.currency}`, align: 'left' },
    right('Cost landed'),
    right('At planned price'),
    right('Price'),
    right('Usage'),
    right('Spoiled, missing'),
    right('In all'),
  ];
  const shown = report.materials.filter((each) => each.paid !== 0 || each.word !== 'as planned');
  const rows = shown.map((each) => [
    each.material,
    money(each.paid, how),
    money(each.planned, how),
    money(each.price, how),
    money(each.usage, how),
    money(each.lost, how),
    money(each.total, how),
  ]);
  const { totals } = report;
  const ofMaterials = report.materialTotals;
  const all = [
    'All',
    money(ofMaterials.paid, how),
    money(ofMaterials.planned, how),
    money(totals.price, how),
    money(totals.usage, how),
    money(totals.lost, how),
    money(ofMaterials.total, how),
  ];
  if (report.materials.length === 0) return '';
  const left = report.materials.length - shown.length;
  const more =
    left === 0 ? '' : `${left} ${left === 1 ? 'more was' : 'more were'} used as planned, and not bought.\n`;
  return `${table(columns, [...rows, all], how.width, how.style)}${more}`;
}

function products(report: VarianceReport, how: ShowHow): string {
  const columns: TableColumn[] = [
    { heading: `Product, ${report.currency}`, align: 'left' },
    right('Pieces'),
    right('Planned hours'),
    right('Bench hours'),
    right('Wage rate'),
    right('Bench time'),
    right('Materials used'),
    right('In all'),
  ];
  const hours = (value: number): string => showNumber(value, 2, how.settings);
  const rows = report.products.map((each) => [
    each.product,
    showNumber(each.pieces, 0, how.settings),
    hours(each.standardHours),
    hours(each.hours),
    money(each.wageRate, how),
    money(each.efficiency, how),
    money(each.usage, how),
    money(each.total, how),
  ]);
  const all = report.productTotals;
  const last = [
    'All',
    showNumber(all.pieces, 0, how.settings),
    hours(all.standardHours),
    hours(all.hours),
    money(all.wageRate, how),
    money(all.efficiency, how),
    money(all.usage, how),
    money(all.total, how),
  ];
  return rows.length === 0 ? '' : table(columns, [...rows, last], how.width, how.style);
}

function overhead(report: VarianceReport, how: ShowHow): string[] {
  const { planned, absorbed, paid, spending, idle, notAbsorbed } = report.overhead;
  const { currency } = report;
  const took = `Overhead: pieces took up ${money(absorbed, how)} of the ${money(planned, how)} ${currency} planned (${money(idle, how)} not taken up).`;
  if (paid === null || spending === null)
    return [`${took} What was paid is not written (overheads_paid.csv).`];
  return [
    `${took} Paid were ${money(paid, how)}, which is ${money(spending, how)} beyond plan; so ${money(notAbsorbed, how)} ${currency} of what was paid are in no piece.`,
  ];
}
