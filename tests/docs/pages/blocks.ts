/** What a page of the docs holds between fences, in order. `line` is that of the fence, from 1. */
export interface Block {
  /** The word after the fence: `sh`, `text`, `csv`, … */
  readonly language: string;
  /** A file of the reader's folder: ```csv my-book/products.csv. */
  readonly file: string;
  readonly text: string;
  readonly line: number;
  /** Said in a comment above the block, which a reader of the page does not see. */
  readonly notRun: string | undefined;
  readonly exits: number;
  readonly runFirst: readonly string[];
}

/**
 * Blocks of a page. Comments between two blocks speak of the next one:
 * `<!-- run: sennit new my-book -->` is run before it, `<!-- not run: why -->` leaves it alone,
 * `<!-- exits with 1 -->` is the exit code that its last command has.
 */
export function blocksOf(page: string): Block[] {
  const blocks: Block[] = [];
  let before = '';
  let open: { readonly fence: string; readonly line: number; readonly lines: string[] } | undefined;
  for (const [index, line] of page.split('\n').entries()) {
    if (open !== undefined) {
      if (line !== '```') open.lines.push(line);
      else {
        const [language = '', ...file] = open.fence.split(' ');
        blocks.push({
          language,
          file: file.join(' '),
          text: open.lines.map((each) => `${each}\n`).join(''),
          line: open.line,
          notRun: /<!-- not run: (.+?) -->/.exec(before)?.[1],
          exits: Number(/<!-- exits with (\d) -->/.exec(before)?.[1] ?? 0),
          runFirst: [...before.matchAll(/<!-- run: (.+?) -->/g)].map(([, command = '']) => command),
        });
        open = undefined;
        before = '';
      }
    } else if (line.startsWith('```')) open = { fence: line.slice(3).trim(), line: index + 1, lines: [] };
    else before += `${line}\n`;
  }
  if (open !== undefined) throw new Error(`The block of line ${open.line} is not closed.`);
  return blocks;
}

/** A command line as a shell takes it apart: quotation marks hold together, ` # …` is a remark. */
export function words(command: string): string[] {
  const bare = command.replace(/\s+#\s.*$/, '');
  return [...bare.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(
    ([, double, single, plain]) => double ?? single ?? plain ?? '',
  );
}
