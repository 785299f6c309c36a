import { describe, expect, it } from 'vitest';
import { runCli } from '../support/runCli.ts';

const starter = 'templates/books/starter';

interface Price {
  readonly product: string;
  readonly materials: number;
  readonly labour: number;
  readonly overhead: number;
  readonly unitCost: number;
  readonly channels: readonly Record<string, number | string>[];
}

describe('sennit price', () => {
  it('prints every figure of every product and channel as JSON', async () => {
    const { exitCode, out } = await runCli(['price', starter, '--json']);
    expect(exitCode).toBe(0);
    const report = JSON.parse(out) as { currency: string; products: Price[] };
    expect(report.currency).toBe('USD');
    expect(report.products.length).toBeGreaterThanOrEqual(24);
    for (const product of report.products) {
      expect(product.unitCost).toBeCloseTo(product.materials + product.labour + product.overhead, 9);
      expect(product.channels).toHaveLength(3);
      for (const price of product.channels) {
        for (const field of [
          'floor',
          'target',
          'asking',
          'margin',
          'markup',
          'contribution',
          'contributionPerHour',
        ]) {
          expect(price[field], `${product.product} ${price.channel} ${field}`).toBeTypeOf('number');
        }
      }
    }
  });

  it.each([starter, 'templates/books/metric'])(
    'fits 80 columns and ends with what to do next: %s',
    async (book) => {
      const { out } = await runCli(['price', book]);
      const table = out.slice(0, out.indexOf('\n* set by hand'));
      for (const line of table.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
      expect(out.split('\n')[0]).toMatch(/^\d+ products, 3 channels; /);
      expect(out).toContain('Next: sennit price');
    },
  );

  it('names the prices under their floor in words, not by a mark alone', async () => {
    const { out } = await runCli(['price', starter]);
    expect(out.split('\n')[0]).toContain('2 prices are under the floor');
    expect(out).toMatch(/under its floor, each sale loses money: .+\(.+\)/);
  });

  it('shows one channel in full', async () => {
    const { out } = await runCli(['price', starter, '--channel', 'stall']);
    for (const heading of ['Floor', 'Target', 'Asking', 'Margin', 'Markup']) expect(out).toContain(heading);
  });

  it('knows a channel by its full name and whatever the capitals', async () => {
    const byKey = await runCli(['price', starter, '--channel', 'stall']);
    for (const name of ['STALL', 'Mill-yard market stall']) {
      expect((await runCli(['price', starter, '--channel', name])).out).toBe(byKey.out);
    }
  });

  it('shows what a unit cost is made of', async () => {
    const { out } = await runCli(['price', starter, '--costs']);
    for (const heading of ['Mate-', 'rials', 'Labour', 'Overhead', 'Unit cost', 'Bench', 'Weight'])
      expect(out).toContain(heading);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('says of weights what they rest on and what they leave out', async () => {
    const { out } = await runCli(['price', starter, '--costs']);
    expect(out).toContain('Weight: at most, where a cord is weighed by its specification.');
    expect(out).toContain('(belt narrow, belt broad)');
    const { out: text } = await runCli(['price', starter, '--json']);
    const report = JSON.parse(text) as {
      products: { product: string; weightG: number; unweighed: number; weightFrom: string }[];
      materials: { material: string; weightGPerM: number | null; breakingStrengthN: number | null }[];
      strengthCaution: string;
    };
    const belt = report.products.find(({ product }) => product === 'belt broad');
    expect(belt).toMatchObject({ unweighed: 1, weightFrom: 'incomplete' });
    // MIL-C-5040H, type III: 225 ft to the pound at least, 550 lbf; units of NIST SP 811.
    const slate = report.materials.find(({ material }) => material === 'slate cord');
    expect(slate?.weightGPerM).toBeCloseTo(453.59237 / (0.3048 * 225), 9);
    expect(slate?.breakingStrengthN).toBeCloseTo(550 * 4.4482216152605, 9);
    expect(report.strengthCaution).toContain('Knots weaken cord');
  });

  it('calls itself as it was called', async () => {
    expect((await runCli(['price', starter])).out).toContain('Next: sennit price');
    expect((await runCli(['price', starter], { env: { npm_lifecycle_event: 'npx' } })).out).not.toContain(
      'npm run',
    );
    expect((await runCli(['price', starter], { env: { npm_lifecycle_event: 'sennit' } })).out).toContain(
      'Next: npm run -s sennit -- price',
    );
  });

  it('tells the same in sentences where it is to be read aloud', async () => {
    const { out } = await runCli(['price', starter, '--plain']);
    expect(out.split('\n')[0]).toContain('2 prices are under the floor');
    expect(out).toMatch(/^lanyard eight: unit cost .+; online asks /m);
    expect(out).toMatch(/stall asks 28\.00, margin -7\.2 %, set by hand, under its floor/);
    expect(out).not.toMatch(/ {2}|[*!]/);
  });

  it('names the channels there are when asked for another', async () => {
    const { exitCode, err } = await runCli(['price', starter, '--channel', 'stal']);
    expect(exitCode).toBe(2);
    expect(err).toContain('There is no channel “stal”');
    expect(err).toContain('stall');
  });

  it('colours only a terminal, and not where NO_COLOR is set', async () => {
    const escapeCode = '\u001b[';
    expect((await runCli(['price', starter])).out).not.toContain(escapeCode);
    expect((await runCli(['price', starter], { columns: 100 })).out).toContain(escapeCode);
    expect((await runCli(['price', starter], { columns: 100, env: { NO_COLOR: '1' } })).out).not.toContain(
      escape,
    );
    expect((await runCli(['price', starter, '--plain'], { columns: 100 })).out).not.toContain(escapeCode);
  });
});
