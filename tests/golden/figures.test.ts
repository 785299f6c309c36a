import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { expectGolden, refreshing } from '../support/golden.ts';
import { drawnFigure, type Figure } from '../support/drawnFigure.ts';

const drawings = fileURLToPath(new URL('../cord/drawn/figures/', import.meta.url));
const pages = fileURLToPath(new URL('../../docs/cord/', import.meta.url));
const names = readdirSync(drawings)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.replace(/\.ts$/, ''));

describe('figures of weaves', () => {
  it.each(names)('%s is what its centre lines draw', async (name) => {
    const { figure } = (await import(`../cord/drawn/figures/${name}.ts`)) as { figure: Figure };
    const path = `${pages}figures/${name}.svg`;
    const drawn = drawnFigure(figure);
    if (refreshing) writeFileSync(path, drawn);
    else expectGolden(readFileSync(path, 'utf8'), drawn, `docs/cord/figures/${name}.svg`);
  });

  it('there is a page for each, which shows it', () => {
    for (const name of names) {
      expect(readFileSync(`${pages}${name}.md`, 'utf8')).toContain(`](figures/${name}.svg)`);
    }
  });

  it('no figure is left over', () => {
    const files = readdirSync(`${pages}figures`).map((file) => file.replace(/\.svg$/, ''));
    expect(files.sort()).toEqual([...names].sort());
  });
});
