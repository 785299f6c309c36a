// How long a slider of the page takes, by the browser's own clock: against a frame of the same browser, and against
// writing the same texts into the same table without working anything out.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const movesEach = 200;

/** Where Chromium is; undefined where it is not. */
function findChromium() {
  for (const name of ['chromium', 'chromium-browser']) {
    try {
      return execFileSync('which', [name], { encoding: 'utf8' }).trim();
    } catch {
      // The next name may be known.
    }
  }
  return undefined;
}

/** Runs in the page: moves each slider back and forth over its whole range, a frame for each move. */
async function inPage(moves) {
  const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
  const frames = [];
  let before = await frame();
  for (let at = 0; at < 120; at += 1) {
    const now = await frame();
    frames.push(now - before);
    before = now;
  }
  const cells = [...document.querySelectorAll('tr[data-live]')].flatMap((row) => [
    ...[...row.querySelectorAll('td')].slice(1),
  ]);
  const table = document.getElementById('live-table');
  const bare = [];
  /** Every cell written with another text, a letter longer, and laid out. */
  const writeAlone = () => {
    const texts = cells.map((each) => each.textContent);
    const began = performance.now();
    cells.forEach((cell, at) => {
      cell.textContent = `${texts[at]}0`;
    });
    void table.offsetHeight;
    bare.push(performance.now() - began);
    cells.forEach((cell, at) => {
      cell.textContent = texts[at];
    });
  };
  const taken = {};
  for (const range of document.querySelectorAll('input[type=range]')) {
    const [min, max, step] = [Number(range.min), Number(range.max), Number(range.step)];
    const steps = Math.round((max - min) / step);
    const times = [];
    for (let move = 0; move < moves; move += 1) {
      // Far apart, so that nearly every cell changes.
      range.value = String(min + ((move * 37) % (steps + 1)) * step);
      range.dispatchEvent(new Event('input', { bubbles: true }));
      times.push(performance.getEntriesByName('sennit-move').at(-1).duration);
      await frame();
      // In turn with the moves, so that a slow moment hits both alike.
      writeAlone();
      await frame();
    }
    taken[range.id.replace('-range', '')] = times;
  }
  return { frames, taken, bare, cells: cells.length };
}

/** Opens a written page and measures its sliders; undefined where there is no browser. */
export async function measurePage(file) {
  const executablePath = findChromium();
  if (executablePath === undefined) return undefined;
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
    await page.goto(pathToFileURL(file).href);
    return await page.evaluate(`(${inPage})(${movesEach})`);
  } finally {
    await browser.close();
  }
}

/** The figure under which so many of a hundred lie. */
function percentile(times, percent) {
  const sorted = [...times].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor((sorted.length * percent) / 100))];
}

/** Writes the page of a book and says how quick its sliders are. */
export async function benchPage({ top, book, scratch, say }) {
  const file = join(scratch, 'report.html');
  execFileSync(process.execPath, ['dist/sennit.js', 'report', book, '--out', file], { cwd: top });
  const found = await measurePage(file);
  if (found === undefined) {
    say('\nChromium is not here; the page was not measured.');
    return;
  }
  const frameMs = percentile(found.frames, 50);
  const bareMs = percentile(found.bare, 50);
  say(
    `\nPage of the demo book: ${movesEach} moves a slider, ${found.cells} cells follow; a frame is ${frameMs.toFixed(1)} ms, writing the same cells alone ${bareMs.toFixed(2)} ms (median)`,
  );
  for (const [name, times] of [...Object.entries(found.taken), ['all', Object.values(found.taken).flat()]]) {
    const [median, high] = [percentile(times, 50), percentile(times, 95)];
    const late = times.filter((each) => each > frameMs).length;
    say(
      `  ${name.padEnd(10)} median ${median.toFixed(2).padStart(6)} ms  ${(median / frameMs).toFixed(2)} of a frame, ${(median / bareMs).toFixed(1)} x the bare update   95th percentile ${high.toFixed(2).padStart(6)} ms  ${(high / frameMs).toFixed(2)} of a frame; ${late} of ${times.length} over a frame`,
    );
  }
}
