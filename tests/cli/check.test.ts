import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inFreshFolder, runCli } from '../support/runCli.ts';

describe('sennit check', () => {
  test('speaks of blank tables only where a price counts nothing for want of them', async () => {
    await inFreshFolder(async (folder) => {
      await runCli(['new', 'mine'], { folder });
      const whole = await runCli(['check', 'mine'], { folder });
      expect(whole.exitCode).toBe(0);
      // The starter has no other currency, and wants none.
      expect(whole.out).toMatch(
        /^The book can be priced: \d+ products, \d+ materials, 3 channels\.\n\d+ things to look at/,
      );
      rmSync(join(folder, 'mine', 'overheads.csv'));
      rmSync(join(folder, 'mine', 'scenarios.csv'));
      rmSync(join(folder, 'mine', 'ranges.csv'));
      writeFileSync(join(folder, 'mine', 'work.csv'), 'for,step\n');
      const { out } = await runCli(['check', 'mine'], { folder });
      expect(out).toContain('Blank as yet, so that prices count nothing for it: ');
      expect(out).toMatch(/nothing for it: (?=.*overheads)(?=.*work).*\.\n/);
    });
  });
});
