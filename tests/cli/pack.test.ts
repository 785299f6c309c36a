import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFreshFolder } from '../support/runCli.ts';

/** Runs a program and gives its output; npm writes its own logs into the fresh folder. */
function run(command: string, args: readonly string[], folder: string): string {
  return execFileSync(command, args, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}

describe('the packed tarball', () => {
  it('installs elsewhere without the network and does the whole job', () =>
    inFreshFolder(async (folder) => {
      // `npm test` has built dist/ already; building again here would pull it from under other tests.
      run('npm', ['pack', '--ignore-scripts', '--pack-destination', folder], process.cwd());
      const tarball = readdirSync(folder).find((file) => file.endsWith('.tgz')) ?? '';
      run('npm', ['init', '--yes'], folder);
      run('npm', ['install', '--offline', '--no-audit', '--no-fund', join(folder, tarball)], folder);
      const sennit = join(folder, 'node_modules', '.bin', 'sennit');
      const cord = JSON.parse(run(sennit, ['cord', '--length', '7 in', '--json'], folder)) as {
        totalMm: number;
      };
      expect(cord.totalMm).toBeCloseTo(2141.06, 1);
      run(sennit, ['new', 'mine'], folder);
      expect(run(sennit, ['price', 'mine'], folder)).toMatch(/^\d+ products/);
      // Loads the solver from beside the installed program.
      expect(run(sennit, ['cut', 'mine', 'lead long=3'], folder)).toContain('Shopping list');
      run(sennit, ['workbook', 'mine'], folder);
      expect(existsSync(join(folder, 'mine.xlsx'))).toBe(true);
      expect(readdirSync(folder).some((file) => file.includes('.part'))).toBe(false);
    }));
});
