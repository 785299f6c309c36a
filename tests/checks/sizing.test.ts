import { describe, expect, it } from 'vitest';
import { offsetCurve, type Point, polylineLength } from '../cord/outline.ts';
import { priceFiles } from '../support/books.ts';

const mmPerInch = 25.4;
/** A bar of one layer in 4 mm cord, as docs/cord/bar.md has it from drawn bars pulled tight: 0.65 x 3 cords. */
const barMm = 0.65 * 3 * 4;

/** One product of 4 mm cord in a book of millimetres, and the figures that the sheets give it. */
function piece(cells: Readonly<Record<string, string>>, files: Readonly<Record<string, string>> = {}) {
  const given = { product: 'piece', weave: 'bar', over_cord: 'cord', ...cells };
  const { plan, values, problems } = priceFiles(
    new Map(
      Object.entries({
        'book.yaml':
          'currency: EUR\nlength_unit: mm\nwage_per_hour: 20\nbench_hours_per_month: 80\nwanted_margin_percent: 20\n',
        'materials.csv':
          'material,sold_by,diameter,pack,pack_price\ncord,length,4 mm,300 m,60\nwebbing,length,,50 m,30\n',
        'channels.csv': 'channel\nstall\n',
        'work.csv': 'for,step,minutes_per_piece\npiece,tie,10\n',
        'products.csv': `${Object.keys(given).join(',')}\n${Object.values(given).join(',')}\n`,
        ...files,
      }),
    ),
  );
  if (plan === undefined || values === undefined)
    throw new Error(problems.map((each) => each.message).join('\n'));
  return {
    product: (column: string): number => values.number('products', column, 0),
    geometry: (column: string): number => values.number('geometry', column, 0),
    check: (column: string) => values.get('products', column, 0),
    problems,
  };
}

/** Corners of a body that a strap lies round: an oval like a wrist, and a box like a flask. */
const bodies: Readonly<Record<string, readonly Point[]>> = {
  oval: Array.from({ length: 72 }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / 72;
    return [32 * Math.cos(angle), 21 * Math.sin(angle)];
  }),
  box: [
    [40, 25],
    [-40, 25],
    [-40, -25],
    [40, -25],
  ],
};

describe('from a body measure to a flat length', () => {
  it.each(Object.keys(bodies))(
    'is as long as the middle of a strap drawn round an %s, measured on the drawing',
    (name) => {
      const corners = bodies[name] ?? [];
      const round = polylineLength([...corners, corners[0] ?? [0, 0]]);
      for (const thickness of [4, 12, 20]) {
        // Half a thickness from the body, found ray by ray: no formula for its length is used.
        const drawn = polylineLength(offsetCurve(corners, thickness / 2));
        const { product } = piece({ measure: String(round), thickness_set: String(thickness) });
        expect(product('finished')).toBeGreaterThan(round);
        expect(Math.abs(product('finished') - drawn)).toBeLessThan(0.01);
      }
    },
  );

  it('gives flat bar rolled to 20 in outside and 1/4 in thick: pi x (20 - 1/4) in (rule of metal rolling, as told among welders)', () => {
    const inside = Math.PI * (20 - 2 * 0.25) * mmPerInch;
    const { product } = piece({ measure: String(inside), thickness_set: '0.25 in' });
    expect(product('finished') / mmPerInch).toBeCloseTo(19.75 * Math.PI, 9);
  });

  it('gives a band for a hat of size 7, which is 22 in round the head (hat size = circumference / pi, to an eighth)', () => {
    const size = 7;
    expect(Math.round((22 / Math.PI) * 8) / 8).toBe(size);
    const { product } = piece({ measure: String(size * Math.PI * mmPerInch), thickness_set: '6 mm' });
    // The middle of the band is a circle half a thickness outside the head.
    expect(product('finished') / Math.PI).toBeCloseTo(size * mmPerInch + 6, 9);
  });

  it('adds about an inch to a wrist for a single bar of 4 mm cord (common practice, no source)', () => {
    const { product } = piece({ measure: '7 in' });
    expect(Math.abs(product('finished') / mmPerInch - 8)).toBeLessThan(0.05);
  });

  it('takes the thickness from the weave, and adds ease', () => {
    const { product } = piece({ measure: '160', ease: '10', hardware_length: '30' });
    expect(product('thickness')).toBeCloseTo(barMm, 9);
    expect(product('finished')).toBeCloseTo(170 + barMm * Math.PI, 9);
    expect(product('woven_length')).toBeCloseTo(140 + barMm * Math.PI, 9);
  });

  it('lets a length set by hand count, and says by how much it differs', () => {
    const by = piece({ measure: '160', finished_length: '180' });
    expect(by.product('finished')).toBe(180);
    expect(by.product('longer_by')).toBeCloseTo(20 - barMm * Math.PI, 9);
    expect(by.product('fits_from')).toBeCloseTo(180 - barMm * Math.PI, 9);
    expect(by.check('measure_check')).toBe('look');
    const woven = piece({ measure: '160', woven_length_set: '170', hardware_length: '30' });
    expect(woven.product('finished')).toBe(200);
    expect(woven.product('woven_length')).toBe(170);
    // As near as a tape reads: nothing to say.
    expect(piece({ measure: '160', finished_length: '185' }).check('measure_check')).toBe('well');
  });

  it('goes by the measure of the run, whatever the size', () => {
    const { product, problems } = piece(
      { size_run: 'wrist' },
      { 'sizes.csv': 'run,size,measure\nwrist,only,160\n' },
    );
    expect(problems).toEqual([]);
    expect(product('body_measure')).toBe(160);
  });
});

describe('adjustable pieces', () => {
  const strap = { measure: '160', ease: '10', hardware_length: '30', webbing_length: '40', adjusts_by: '50' };
  const parts = (length: string) => ({ 'parts.csv': `product,material,quantity\npiece,webbing,${length}\n` });

  it('leaves webbing out of the weave and fits half the way either side', () => {
    const { product, problems } = piece(strap, parts('90 mm'));
    expect(problems).toEqual([]);
    expect(product('woven_length')).toBeCloseTo(170 + barMm * Math.PI - 70, 9);
    expect([product('fits_from'), product('fits_to')]).toEqual([135, 185]);
  });

  it('looks for as much webbing as is to be let out', () => {
    // 40 mm in the middle of its way, and half of 50 mm more when let out.
    expect(piece(strap, parts('65 mm')).check('webbing_check')).toBe('well');
    expect(piece(strap, parts('64 mm')).check('webbing_check')).toBe('look');
    expect(piece(strap).check('webbing_check')).toBe('look');
  });

  it('fits nothing where there is no measure', () => {
    const { product } = piece({ finished_length: '200', adjusts_by: '20', hardware_length: '30' });
    expect([product('fits_from'), product('fits_to'), product('longer_by')]).toEqual([0, 0, 0]);
  });
});

describe('what fits a slot or a ring', () => {
  const bar = { finished_length: '200', core_strands: '6' };

  it('three hitches of 4 mm cord, six strands, fill a slot of 1 in (common practice, no source)', () => {
    const { product, check } = piece({ ...bar, slot_width: '1 in' });
    expect([product('strands_across'), product('hitches_across')]).toEqual([6, 3]);
    expect([check('slot_check'), check('gap_check')]).toEqual(['well', 'well']);
  });

  it('tells of strands that do not fit, and of room for one more', () => {
    expect(piece({ ...bar, slot_width: '23.9 mm' }).check('slot_check')).toBe('look');
    expect(piece({ ...bar, slot_width: '27.9 mm' }).check('gap_check')).toBe('well');
    expect(piece({ ...bar, slot_width: '28 mm' }).check('gap_check')).toBe('look');
  });

  it('six strands lie in a ring three strands wide: six coins round one (densest packing of equal circles)', () => {
    const { product } = piece({ ...bar, ring_inside: '12 mm' });
    expect([product('strands_across'), product('hitches_across')]).toEqual([6, 3]);
    const seven = piece({ ...bar, core_strands: '7', ring_inside: '12 mm' });
    expect([seven.check('slot_check'), seven.check('gap_check')]).toEqual(['look', 'well']);
  });
});

describe('half knots to tie', () => {
  const weaves = (pitch: string) => ({
    'weaves.csv': `weave,family,under_strands,pitch_ratio\nown,bar,1,${pitch}\n`,
  });

  it('20 half knots in 94 mm of 4 mm cord are a pitch of 1.175, and back', () => {
    const { geometry } = piece({ weave: 'own', woven_length_set: '94' }, weaves('1.175'));
    expect(geometry('knots')).toBeCloseTo(20, 9);
    expect(geometry('half_knots')).toBe(20);
    expect(geometry('knotted_length')).toBeCloseTo(94, 9);
  });

  it('is an even number, the nearest, and never none', () => {
    const knots = (length: string) =>
      piece({ weave: 'own', woven_length_set: length }, weaves('1')).geometry('half_knots');
    // A pitch of 4 mm.
    expect(['80', '83', '85', '88', '3'].map(knots)).toEqual([20, 20, 22, 22, 2]);
  });

  it('is none in a weave that is not knotted', () => {
    const { geometry } = piece({ weave: 'round braid 4', woven_length_set: '300' });
    expect([geometry('half_knots'), geometry('knotted_length')]).toEqual([0, 0]);
  });
});
