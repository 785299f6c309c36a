import type { SweepTableReport } from '../../engine/index.ts';
import { capital, pricesText, resultText, resultTitle } from './resultText.ts';
import type { ShowHow } from './showHow.ts';
import { type TableColumn, table, textWidth, widest, wrap } from './table.ts';

/** Results over the steps of one input, or one grid a result over two. */
export function showSweepTable(report: SweepTableReport, how: ShowHow): string {
  const parts = report.down === null ? oneWay(report, how) : twoWay(report, how);
  return `${[...parts, ...wrap(pricesText(report.prices), how.width)].join('\n')}\n`;
}

/** The same in sentences. */
export function tellSweepTable(report: SweepTableReport, { settings }: ShowHow): string {
  const { across, down } = report;
  const lines = report.results.flatMap(({ result, rows }) =>
    rows.flatMap((row, second) =>
      row.map((value, first) => {
        const under = down === null ? '' : ` and ${down.input} ${down.steps[second]}`;
        return `${across.input} ${across.steps[first]}${under}: ${result.name} ${resultText(value, result, settings)}.`;
      }),
    ),
  );
  return `${[...lines, pricesText(report.prices)].join('\n')}\n`;
}

function right(heading: string): TableColumn {
  return { heading, align: 'right' };
}

function oneWay({ across, results }: SweepTableReport, how: ShowHow): string[] {
  const { title, headings } = titleOf(results, how);
  const heading = `${capital(across.input)} from ${across.steps[0]} to ${across.steps.at(-1)}: ${title}`;
  // As many results side by side as the width takes, the others below.
  const step = widest([...across.steps, across.input].map(textWidth));
  const wide = widest(
    headings.flatMap((each) => each.split(' ').map(textWidth)),
    9,
  );
  const each = Math.max(1, Math.floor((how.width - step) / (wide + 2)));
  const tables: string[] = [];
  for (let at = 0; at < results.length; at += each) {
    const some = results.slice(at, at + each);
    const rows = across.steps.map((step, first) => [
      step,
      ...some.map(({ result, rows: [row] }) => resultText(row?.[first] ?? null, result, how.settings)),
    ]);
    const columns = [right(capital(across.input)), ...headings.slice(at, at + each).map(right)];
    tables.push(table(columns, rows, how.width, how.style));
  }
  return [...wrap(how.style.heading(heading), how.width), '', ...tables];
}

/** What all results share stands in the title, what differs over the columns. */
function titleOf(
  results: SweepTableReport['results'],
  how: ShowHow,
): { readonly title: string; readonly headings: readonly string[] } {
  const [first, second] = results;
  if (first === undefined) return { title: '', headings: [] };
  const { result, today } = first;
  if (second === undefined)
    return {
      title: `${resultTitle(result)} (today ${resultText(today, result, how.settings)})`,
      headings: ['Result'],
    };
  const all = results.map((each) => each.result);
  const same = (key: 'column' | 'product' | 'channel'): boolean =>
    all.every((each) => each[key] === result[key]);
  const rest = (name: string | undefined, sign: string): string =>
    resultTitle({
      ...result,
      name: name === undefined ? result.name : result.name.replace(`${sign}${name}`, ''),
    });
  if (same('column') && same('channel') && !same('product'))
    return { title: rest(result.product, ' of '), headings: all.map(({ product }) => product ?? '') };
  if (same('column') && same('product') && !same('channel'))
    return { title: rest(result.channel, ' at '), headings: all.map(({ channel }) => channel ?? '') };
  return { title: `${results.length} results`, headings: all.map(resultTitle) };
}

function twoWay({ across, down, results }: SweepTableReport, how: ShowHow): string[] {
  if (down === null) return [];
  return results.flatMap(({ result, today, rows }) => {
    const title = `${how.style.heading(resultTitle(result))} (today ${resultText(today, result, how.settings)}): ${across.input} across, ${down.input} down`;
    const texts = rows.map((row) => row.map((value) => resultText(value, result, how.settings)));
    const wide = widest([...texts.flat(), ...across.steps].map(textWidth)) + 2;
    const each = Math.max(
      1,
      Math.floor((how.width - widest([...down.steps, down.input].map(textWidth))) / wide),
    );
    const tables: string[] = [];
    for (let at = 0; at < across.steps.length; at += each) {
      const columns = [right(capital(down.input)), ...across.steps.slice(at, at + each).map(right)];
      const cells = texts.map((row, second) => [down.steps[second] ?? '', ...row.slice(at, at + each)]);
      tables.push(table(columns, cells, how.width, how.style));
    }
    return [...wrap(title, how.width), '', ...tables];
  });
}
