import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CordReport, cordReport } from '../engine/export/answers/cordReport.ts';
import { type CordQuestion, oneOffCord } from '../engine/oneOffCord.ts';
import { readSheetFile } from '../engine/sheets/readSheetFile.ts';
import { shipped } from './support/books.ts';

const oneOff = ['colours', 'layers'].map((name) =>
  readSheetFile(`${name}.yaml`, readFileSync(`templates/oneoff/${name}.yaml`, 'utf8')),
);

const question: CordQuestion = {
  weave: 'bar',
  layers: '1',
  core: '',
  length: '7 in',
  measure: '',
  ease: '',
  hardware: '',
  diameter: '4 mm',
  colours: new Map([['over', 'red']]),
  hitches: '0',
  bar: '4 mm',
  takeUp: '',
  thickness: '',
  unit: 'in',
  rates: new Map(),
};

function answer(asked: Partial<CordQuestion>, book: Readonly<Record<string, string>> = {}): CordReport {
  const source = { ...shipped, sheets: [...shipped.sheets, ...oneOff], book: new Map(Object.entries(book)) };
  const { plan, values, problems } = oneOffCord({ ...question, ...asked }, source);
  if (plan === undefined || values === undefined)
    throw new Error(problems.map(({ message }) => message).join('\n'));
  return cordReport(plan, values);
}

describe('a one-off cord question', () => {
  it('takes any words for colours: patterns, numbers that look alike, marks', () => {
    const colours = new Map([
      ['over', '>5'],
      ['under', '01'],
      ['core', '1'],
      ['upper over', 'a*b'],
    ]);
    const plain = new Map([
      ['over', 'red'],
      ['under', 'green'],
      ['core', 'blue'],
      ['upper over', 'gold'],
    ]);
    const odd = answer({ colours, layers: '2' }).colours;
    expect(odd.map(({ cutMm }) => cutMm)).toEqual(
      answer({ colours: plain, layers: '2' }).colours.map(({ cutMm }) => cutMm),
    );
    expect(odd.map(({ colour }) => colour)).toEqual(['>5', '01', '1', 'a*b']);
  });

  it('reads a weave of a book in the notation of that book', () => {
    const point = answer(
      { weave: 'own' },
      {
        'book.yaml': 'currency: USD',
        'weaves.csv': 'weave,family,pitch_ratio,measured_take_up\nown,bar,1.2,4.567\n',
      },
    );
    const comma = answer(
      { weave: 'own' },
      {
        'book.yaml': 'currency: EUR\ndecimal: comma',
        'weaves.csv': 'weave;family;pitch_ratio;measured_take_up\nown;bar;1,2;4,567\n',
      },
    );
    expect(point.takeUp).toBe(4.567);
    expect(comma).toEqual(point);
  });

  it('tells what is wrong with the weaves of the book, where they stand', () => {
    expect(() =>
      answer(
        { weave: 'own' },
        { 'book.yaml': 'currency: USD', 'weaves.csv': 'weave,family,pitch_ratio\nown,bar,many\n' },
      ),
    ).toThrow('“many” is not a number');
  });

  it('takes the core that is usual for the weave where none is given', () => {
    expect(answer({}).coreStrands).toBe(2);
    expect(answer({ weave: 'wrap' }).coreStrands).toBe(1);
    expect(answer({ weave: 'round braid 4' }).coreStrands).toBe(0);
  });
});

describe('take-up layer by layer', () => {
  const own = (isBar: string): Readonly<Record<string, string>> => ({
    'families.csv': `family,usual_core,most_layers,needs,knotted_bar,take_up\nown,2,3,pitch,${isBar},"BAR_CORD(core, 1, layers, pitch_ratio)"\n`,
    'weaves.csv': 'weave,family,over_strands,under_strands,pitch_ratio\nmine,own,1,1,1.2\n',
  });

  it('is told of a knotted bar, and comes to its take-up', () => {
    const { takeUpByLayer, takeUp } = answer({ weave: 'mine', layers: '2' }, own('yes'));
    expect(takeUpByLayer).toHaveLength(2);
    expect(takeUpByLayer.reduce((sum, each) => sum + each, 0)).toBeCloseTo(takeUp, 9);
  });

  it('is not told of another weave in layers, of which BAR_CORD says nothing', () => {
    expect(answer({ weave: 'mine', layers: '2' }, own('no')).takeUpByLayer).toEqual([]);
  });
});
