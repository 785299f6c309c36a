import { bar } from '../../engine/cord/bar.ts';
import { fitBook } from '../../engine/fitBook.ts';
import { type Priced, priceBook, type Source } from '../../engine/priceBook.ts';
import { writeBack } from '../../engine/samples/writeBack.ts';
import { normalFrom, randomFrom, type Workshop } from './simulate.ts';

/** A workshop that keeps a book, and the pieces that it makes by it. */
export interface BookWorkshop extends Workshop {
  /** Part of the variance between pieces that is each cord's own; 0 where the cords of a piece go together. */
  readonly ownShare: number;
}

export interface Made {
  readonly pieces: number;
  /** Pieces of which a cord was cut too short, by its woven length and extra alone. */
  readonly short: number;
  /** The same, with all that is cut: spare, trim and rounding too. */
  readonly shortOfAll: number;
  /** Cord cut over all pieces begun, for each that was long enough, beside what the sheets charge: 1 is fair. */
  readonly chargedShare: number;
  /** What was left of woven length and extra on the average, beside what the sheets expect: 1 is right. */
  readonly leftShare: number;
}

const columns = 'weave,family,over_strands,under_strands,pitch_ratio';

/** A book in millimetres with a product for every weave, and a weave for every run. */
function bookOf(workshop: Workshop, runs: number, samples: string, weaves: string): Map<string, string> {
  const each = (row: (run: number) => string): string =>
    Array.from({ length: runs }, (_, run) => row(run)).join('\n');
  return new Map([
    [
      'book.yaml',
      [
        'currency: USD',
        'length_unit: mm',
        'cord_unit: m',
        'wage_per_hour: 1',
        'bench_hours_per_month: 1',
        'wanted_margin_percent: 0',
        `reading_error: ${workshop.readingErrorMm} mm`,
        `chance_of_short_percent: ${100 * workshop.chanceOfShort} %`,
        `assumed_spread_percent: ${100 * workshop.assumedSpreadRatio} %`,
      ].join('\n'),
    ],
    ['materials.csv', 'material,sold_by,diameter,pack,pack_price\ncord,length,4 mm,100 m,100\n'],
    [
      'products.csv',
      `product,weave,over_cord,under_cord,woven_length_set\n${each((run) => `piece ${run},bar ${run},cord,cord,200 mm`)}`,
    ],
    ['channels.csv', 'channel\nstall\n'],
    ['weaves.csv', weaves === '' ? `${columns}\n${each((run) => `bar ${run},bar,1,1,1.17`)}\n` : weaves],
    ...(samples === '' ? [] : [['samples.csv', samples] as const]),
  ]);
}

function calculated({ plan, values, problems }: Priced): Required<Pick<Priced, 'plan' | 'values'>> {
  if (plan === undefined || values === undefined)
    throw new Error(problems.map((each) => each.message).join('\n'));
  return { plan, values };
}

/**
 * Makers that go the whole way: weave test pieces, measure them, write samples.csv, fit, write the fit into
 * weaves.csv, read cut lengths off the sheet Cuts, and make pieces. What a piece takes follows from the bar's
 * geometry and its own pitch; nothing of fit or sheets goes into it. One book holds a weave for every run.
 */
export function simulateBooks(
  source: Omit<Source, 'book'>,
  workshop: BookWorkshop,
  runs: number,
  piecesEach: number,
  seed: number,
): Made {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const tape = (mm: number): number => mm + workshop.readingErrorMm * normal();
  const [common, own] = [Math.sqrt(1 - workshop.ownShare), Math.sqrt(workshop.ownShare)];
  /** Length that each of the two working cords takes in a piece. */
  const weave = (wovenMm: number, core: number): [number, number] => {
    const shared = common * normal();
    const cord = (): number =>
      wovenMm *
      bar.compute(core, 1, 1, workshop.pitch * (1 + workshop.pitchSpreadRatio * (shared + own * normal())));
    return [cord(), cord()];
  };
  const rows = ['sample,weave,core_strands,woven_length,cord_in,cord_left'];
  for (let run = 0; run < runs; run += 1) {
    const count =
      workshop.fewestSamples + Math.floor(random() * (workshop.mostSamples - workshop.fewestSamples + 1));
    for (let at = 0; at < count; at += 1) {
      const [woven, core, cordIn] = [150 + 150 * random(), random() < 0.5 ? 2 : 4, 6000];
      const used = weave(woven, core).reduce((sum, each) => sum + each, 0);
      const read = [woven, cordIn, cordIn - used].map((mm) => tape(mm).toFixed(3));
      rows.push(`${run}.${at},bar ${run},${core},${read.join(',')}`);
    }
  }
  const before = bookOf(workshop, runs, rows.join('\n'), '');
  const priced = priceBook({ ...source, book: before });
  const fitted = fitBook(priced, { without: [], takeUp: false });
  const problems = fitted?.problems ?? priced.problems;
  if (fitted?.weaves.length !== runs) throw new Error(problems.map((each) => each.message).join('\n'));
  const { text } = writeBack(before.get('weaves.csv'), '', fitted.weaves, calculated(priced).plan.settings);
  const { plan, values } = calculated(priceBook({ ...source, book: bookOf(workshop, runs, '', text) }));

  let [pieces, short, shortOfAll, left, leftExpected, cutMm, charged] = [0, 0, 0, 0, 0, 0, 0];
  for (let row = 0; row < (plan.sheets.find(({ id }) => id === 'cuts')?.rowCount ?? 0); row += 1) {
    if (values.get('cuts', 'role', row) !== 'over') continue;
    const of = (column: string): number => values.number('cuts', column, row);
    // Over and under are cut alike, for bars without joins.
    const cut = of('woven') + of('extra');
    const unused = of('offcut') - (of('cut_length') - of('in_piece') - of('extra'));
    for (let piece = 0; piece < piecesEach; piece += 1) {
      // It is woven until the tape reads 200 mm.
      const taken = weave(2 * 200 - tape(200), 2);
      const most = Math.max(...taken);
      pieces += 1;
      short += Number(most > cut);
      shortOfAll += Number(most > of('cut_length'));
      left += Math.max(0, cut - taken[0]);
      leftExpected += unused;
      cutMm += of('cut_length');
      charged += Number(most <= cut) * (of('cut_length') + of('lost'));
    }
  }
  return { pieces, short, shortOfAll, chargedShare: charged / cutMm, leftShare: left / leftExpected };
}
