import type { Settings } from '../book/settings.ts';
import { showNumber } from '../sheets/showValue.ts';
import type { FitReport, ReportedFit } from './answers/fitReport.ts';
import { escaped } from './escaped.ts';
import { accent, bad, cssColour as colour, good, ink, line, paper, quiet } from './palette.ts';

const width = 640;
const left = 150;
const right = 60;
const rowHeight = 26;
const headHeight = 74;
const footHeight = 56;

/**
 * Residuals of every fit as one SVG: a panel a fit, a row a sample, cord taken beyond the fitted amount in
 * per cent. Where the next cord is cut stands as a line of its own. Nothing is told by colour alone.
 *
 * @param title of a fit, as the terminal words it
 */
export function fitPicture(
  report: FitReport,
  settings: Settings,
  title: (fit: ReportedFit) => string,
): string {
  let top = 0;
  const panels = report.fits.map((fit) => {
    const panel = `<g transform="translate(0 ${top})">${panelOf(fit, report, settings, title(fit))}</g>`;
    top += headHeight + rowHeight * fit.samples.length + footHeight;
    return panel;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${top}" width="${width}" height="${top}" role="img" font-family="Arial, sans-serif" font-size="13" fill="${colour(ink)}">`,
    '<title>Samples beside their fit</title>',
    `<desc>${escaped(report.fits.map((fit) => `${title(fit)}.`).join(' '))}</desc>`,
    `<rect width="${width}" height="${top}" fill="${colour(paper)}"/>`,
    ...panels,
    '</svg>',
    '',
  ].join('\n');
}

function panelOf(fit: ReportedFit, report: FitReport, settings: Settings, title: string): string {
  const reach = Math.max(fit.extraRatio, ...fit.samples.map((each) => Math.abs(each.residualRatio)), 0.01);
  const step = tickStep(reach);
  const ticks = Math.ceil(reach / step);
  const scale = (width - left - right) / (2 * ticks * step);
  const x = (ratio: number): string => (left + (ratio + ticks * step) * scale).toFixed(1);
  const bottom = headHeight + rowHeight * fit.samples.length;
  const percent = (ratio: number, digits: number): string =>
    `${ratio > 0 ? '+' : ''}${showNumber(100 * ratio, digits, settings)}`;
  const parts = [
    `<text x="16" y="24" font-size="15" fill="${colour(accent)}">${escaped(title)}</text>`,
    `<line x1="${x(fit.extraRatio)}" x2="${x(fit.extraRatio)}" y1="${headHeight - 10}" y2="${bottom}" stroke="${colour(good)}" stroke-width="2" stroke-dasharray="5 3"/>`,
    `<text x="${width - 8}" y="${headHeight - 18}" text-anchor="end">dashed: the next cord is cut ${percent(fit.extraRatio, 1)} %, so that ${showNumber(100 * report.chanceOfShort, 1, settings)} % of cords run short</text>`,
  ];
  const digits = step < 0.01 ? 1 : 0;
  for (let tick = -ticks; tick <= ticks; tick += 1) {
    const at = x(tick * step);
    const middle = tick === 0;
    parts.push(
      `<line x1="${at}" x2="${at}" y1="${headHeight - 10}" y2="${bottom}" stroke="${colour(middle ? ink : line)}"/>`,
      `<text x="${at}" y="${bottom + 18}" text-anchor="middle">${percent(tick * step, digits)}</text>`,
    );
  }
  fit.samples.forEach((each, at) => {
    const y = headHeight + rowHeight * at + rowHeight / 2;
    const shade = colour(each.outlier ? bad : accent);
    const name = each.outlier ? `${each.sample} (outlier)` : each.sample;
    parts.push(
      ...(at % 2 === 0
        ? [
            `<rect x="8" y="${y - rowHeight / 2}" width="${left - 16}" height="${rowHeight}" fill="${colour(quiet)}"/>`,
          ]
        : []),
      `<text x="${left - 12}" y="${y + 4}" text-anchor="end">${escaped(short(name))}</text>`,
      `<line x1="${x(0)}" x2="${x(each.residualRatio)}" y1="${y}" y2="${y}" stroke="${shade}"/>`,
      `<circle cx="${x(each.residualRatio)}" cy="${y}" r="5" fill="${shade}"/>`,
      `<text x="${(Number(x(each.residualRatio)) + (each.residualRatio < 0 ? -10 : 10)).toFixed(1)}" y="${y + 4}" text-anchor="${each.residualRatio < 0 ? 'end' : 'start'}">${percent(each.residualRatio, 1)}</text>`,
    );
  });
  parts.push(`<text x="${left}" y="${bottom + 40}">Cord taken beyond the fitted amount, %</text>`);
  return parts.join('\n');
}

/** A step of 1, 2 or 5 times a power of ten that leaves two to five steps on either side. */
function tickStep(reach: number): number {
  const power = 10 ** Math.floor(Math.log10(reach / 2));
  return [1, 2, 5, 10].map((each) => each * power).find((each) => reach / each <= 4) ?? 10 * power;
}

/** Names fit the margin that is kept for them. */
function short(name: string): string {
  const letters = [...name];
  return letters.length > 19 ? `${letters.slice(0, 18).join('')}…` : name;
}
