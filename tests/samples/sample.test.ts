import { describe, expect, it } from 'vitest';
import { samplesOf } from '../../engine/samples/sample.ts';
import { demoBook, pricedBook } from '../support/books.ts';
import { setCells } from '../support/editBook.ts';

const file = 'samples.csv';

describe('samplesOf', () => {
  const { plan, values } = pricedBook(demoBook('starter'));
  const samples = samplesOf(plan, values);
  const named = (name: string) => samples.find((each) => each.sample === name);

  it('reads lengths in millimetres and take-ups per length', () => {
    const first = named('bar 1');
    // 9 ft less 26 1/4 in is 81 3/4 in for both cords, on 8 in.
    expect(first?.usedMm).toBeCloseTo(81.75 * 25.4, 9);
    expect(first?.takeUp).toBeCloseTo(81.75 / 2 / 8, 12);
    expect(first?.countedPitch).toBeCloseTo((8 * 25.4) / 43 / 4, 12);
    expect(first?.where).toEqual({ file, row: 2 });
  });

  it('takes the usual core and all the cords of the weave where nothing is said', () => {
    expect([named('bar 1')?.coreStrands, named('bar 1')?.workingCords]).toEqual([2, 2]);
    expect([named('braid 1')?.coreStrands, named('braid 1')?.workingCords]).toEqual([0, 4]);
    expect(named('bar 4')?.coreTakeUp).toBeCloseTo((48 - 9.625) / 4 / 9.5, 12);
  });

  it('keeps what was not measured apart from zero', () => {
    expect([named('bar 3')?.halfKnots, named('bar 3')?.countedPitch, named('bar 3')?.coreTakeUp]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('marks a sample whose figures cannot be right, and no other', () => {
    const broken = setCells(demoBook('starter'), file, { sample: 'bar 2' }, { cord_left: '104 in' });
    const priced = pricedBook(broken);
    const faulty = samplesOf(priced.plan, priced.values).filter((each) => each.faulty);
    expect(faulty.map((each) => each.sample)).toEqual(['bar 2']);
  });
});
