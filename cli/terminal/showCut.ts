import {
  type CutReport,
  convertLength,
  feetAndInches,
  type LengthUnit,
  type MaterialCut,
  type Pieces,
  type Purchase,
  type Quality,
  type Settings,
  type StockCut,
  showNumber,
  showTrimmed,
} from '../../engine/index.ts';
import { count } from './showProblems.ts';
import type { Style } from './style.ts';
import { type TableColumn, table, wrap } from './table.ts';

export interface ShowCutHow {
  readonly width: number;
  readonly style: Style;
  readonly settings: Settings;
}

/** The answer in a line, then cord by cord what to cut from what, then what to buy. */
export function showCut(report: CutReport, how: ShowCutHow): string {
  const parts = [`${summary(report, how)}\n`, ...report.cords.map((cord) => showCord(cord, report, how))];
  const parted = report.parts.filter((part) => part.missingPieces > 0 || part.onHandPieces > 0);
  if (parted.length > 0) {
    const rows = parted.map((part) => [
      part.material,
      ...[part.pieces, part.onHandPieces, part.missingPieces].map((each) =>
        showNumber(each, 0, how.settings),
      ),
    ]);
    const columns: TableColumn[] = [
      { heading: 'Fittings', align: 'left' },
      ...['Needed', 'On hand', 'Missing'].map((heading): TableColumn => ({ heading, align: 'right' })),
    ];
    parts.push(table(columns, rows, how.width, how.style));
  }
  parts.push(shoppingList(report, how));
  return `${parts.join('\n').trimEnd()}\n`;
}

function summary(report: CutReport, how: ShowCutHow): string {
  const pieces = report.cords.reduce(
    (sum, cord) => sum + cord.cuts.reduce((all, cut) => all + cut.pieces, 0),
    0,
  );
  const packs = report.shopping.reduce((sum, each) => sum + each.packs, 0);
  const buy =
    packs === 0
      ? 'nothing to buy'
      : `buy ${count(packs, 'pack')} for ${money(report.shoppingCost, how)} ${report.currency}`;
  const lines = [
    `${count(pieces, 'piece')} of ${count(report.cords.length, 'cord')} to cut; ${buy}; waste ${percent(report.wasteRatio, how)}.`,
  ];
  if (!report.complete)
    lines.push(
      how.style.bad('Not everything can be cut: no stock or pack is left that is long enough (see below).'),
    );
  if (report.stopped) lines.push(how.style.watch('Stopped early: this is the best plan so far.'));
  return lines.join('\n');
}

function showCord(cord: MaterialCut, report: CutReport, how: ShowCutHow): string {
  const pieces = cord.cuts.reduce((sum, cut) => sum + cut.pieces, 0);
  const lines = [
    how.style.heading(`${cord.material}: ${count(pieces, 'piece')}, ${long(cord.cutMm, how)} to cut`),
    ...cord.cuts.flatMap((cut) =>
      indented(
        `${cut.pieces} x ${tape(cut.cutMm, how)}: ${cut.for.map((use) => `${use.product} ${use.role}${cut.for.length > 1 ? ` ${use.pieces}` : ''}`).join(', ')}`,
        2,
        how,
      ),
    ),
    ...(cord.stock.length > 0 ? ['  From'] : []),
    ...cord.stock.flatMap((stock) => indented(stockLine(stock, how), 4, how)),
  ];
  if (cord.missing.length > 0) lines.push(...indented(missingLine(cord, report, how), 2, how));
  if (cord.uncut.length > 0) {
    lines.push(
      ...indented(
        `Not cut: ${list(cord.uncut, how)}; longer than any pack, and no stock that is long enough is left. That cord would cost about ${money(cord.uncutCost, how)} ${report.currency}.`,
        2,
        how,
      ).map(how.style.bad),
    );
  }
  const kept =
    cord.keptMm > 0
      ? ` Back to stock: ${long(cord.keptMm, how)}, worth ${money(cord.keptValue, how)} ${report.currency}.`
      : '';
  lines.push(
    ...indented(`Waste ${long(cord.wasteMm, how)} (${percent(cord.wasteRatio, how)}).${kept}`, 2, how),
    // Where pieces stay uncut, the least cost of cutting them all says nothing.
    ...(cord.uncut.length > 0 ? [] : indented(qualityLine(cord, how), 2, how)),
  );
  return `${lines.join('\n')}\n`;
}

function missingLine(cord: MaterialCut, report: CutReport, how: ShowCutHow): string {
  const bought = `${cord.buy.map((each) => purchaseText(each, how)).join(', ')} for ${money(cord.buyCost, how)} ${report.currency}`;
  // Where stock on hand holds none of it, the list would only say again what is to be cut.
  if (cord.missingMm >= cord.cutMm - 1e-6) return `Stock on hand holds none of it. Buy ${bought}.`;
  return `Stock on hand alone leaves ${list(cord.missing, how)} (${long(cord.missingMm, how)}) missing. Buy ${bought}.`;
}

function stockLine(stock: StockCut, how: ShowCutHow): string {
  const left =
    stock.leftIs === 'nothing'
      ? 'nothing left'
      : `left ${stock.leftIs === 'kept' ? `${long(stock.leftMm, how)}, back to stock` : `${short(stock.leftMm, how)}, waste`}`;
  const from = stock.from === 'bought' ? 'bought' : 'on hand';
  return `${stock.times} x ${long(stock.stockMm, how)} ${stock.kind} (${from}): ${list(stock.cuts, how)}, ${left}${stock.times > 1 ? ' of each' : ''}`;
}

function qualityLine(cord: MaterialCut, how: ShowCutHow): string {
  const buys = cord.buy.length > 0;
  const proven = [
    buys && cord.buyQuality.proven ? 'nothing cheaper can be bought for it' : '',
    cord.openedQuality.proven ? 'no plan opens less stock' : '',
  ].filter((each) => each !== '');
  const open = [
    buys && !cord.buyQuality.proven ? `What is bought ${gapText(cord.buyQuality, how)}.` : '',
    cord.openedQuality.proven ? '' : `The stock opened ${gapText(cord.openedQuality, how)}.`,
  ].filter((each) => each !== '');
  return [...(proven.length > 0 ? [`Proven: ${proven.join(', and ')}.`] : []), ...open].join(' ');
}

function gapText(quality: Quality, how: ShowCutHow): string {
  return quality.gapRatio === null
    ? 'is not proven to be the least; the gap is not known'
    : `is at most ${percent(quality.gapRatio, how)} above the least (not proven)`;
}

function shoppingList(report: CutReport, how: ShowCutHow): string {
  if (report.shopping.length === 0) return 'Shopping list: nothing; stock on hand is enough.\n';
  const columns: TableColumn[] = [
    { heading: 'Shopping list', align: 'left' },
    { heading: 'Pack', align: 'right' },
    { heading: 'Packs', align: 'right' },
    { heading: `Each, ${report.currency}`, align: 'right' },
    { heading: `Cost, ${report.currency}`, align: 'right' },
  ];
  const rows = report.shopping.map((each) => [
    each.material,
    packText(each, how),
    showNumber(each.packs, 0, how.settings),
    money(each.costEach, how),
    money(each.cost, how),
  ]);
  rows.push(['Total, landed', '', '', '', money(report.shoppingCost, how)]);
  return table(columns, rows, how.width, how.style);
}

function purchaseText(each: Purchase, how: ShowCutHow): string {
  return `${each.packs} x ${packText(each, how)}`;
}

function packText(each: Purchase, how: ShowCutHow): string {
  return each.packMm === null
    ? `${showNumber(each.packPieces ?? 0, 0, how.settings)} pieces`
    : long(each.packMm, how);
}

function list(pieces: readonly Pieces[], how: ShowCutHow): string {
  return pieces.map((each) => `${each.pieces} x ${short(each.cutMm, how)}`).join(' + ');
}

/** A length in the maker's unit, and as a tape measure reads where that is in feet. */
function tape(lengthMm: number, how: ShowCutHow): string {
  if (how.settings.lengthUnit !== 'in') return short(lengthMm, how);
  const { feet, inches } = feetAndInches(lengthMm);
  const rest = trimmed(inches, how);
  return feet === 0
    ? short(lengthMm, how)
    : `${short(lengthMm, how)} (${feet} ft${rest === '0' ? '' : ` ${rest} in`})`;
}

const short = (lengthMm: number, how: ShowCutHow): string => measured(lengthMm, how.settings.lengthUnit, how);
const long = (lengthMm: number, how: ShowCutHow): string => measured(lengthMm, how.settings.cordUnit, how);

function measured(lengthMm: number, unit: LengthUnit, how: ShowCutHow): string {
  return `${trimmed(convertLength(lengthMm, 'mm', unit), how)} ${unit}`;
}

/** At most two decimals, and none where they are zero: 49, 7.5, 12.25. */
function trimmed(value: number, how: ShowCutHow): string {
  return showTrimmed(value, 2, how.settings);
}

function money(value: number, how: ShowCutHow): string {
  return showNumber(value, how.settings.currencyDigits, how.settings);
}

function percent(ratio: number, how: ShowCutHow): string {
  const text = showNumber(ratio * 100, 2, how.settings);
  return `${text} %`;
}

function indented(text: string, by: number, how: ShowCutHow): string[] {
  const margin = ' '.repeat(by);
  return wrap(text, Math.max(30, how.width - by - 2)).map(
    (line, at) => `${margin}${at === 0 ? '' : '  '}${line}`,
  );
}
