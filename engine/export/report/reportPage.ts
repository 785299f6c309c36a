import { escaped } from '../escaped.ts';
import type { About } from '../pages/pageSetup.ts';
import { shorten } from '../shorten.ts';
import type { BookReport } from './bookReport.ts';
import type { Live } from './live/livePrograms.ts';
import { reportStyle } from './reportStyle.ts';
import { benchHours } from './sections/benchHours.ts';
import { breakEvens } from './sections/breakEvens.ts';
import { channelMargins } from './sections/channelMargins.ts';
import { costBars } from './sections/costBars.ts';
import { headline } from './sections/headline.ts';
import { liveSection, modelSource } from './sections/liveSection.ts';
import { priceLadders } from './sections/priceLadders.ts';
import { scenarioComparison } from './sections/scenarioComparison.ts';
import type { Section } from './sections/section.ts';
import { sensitivity } from './sections/sensitivity.ts';

const mostTitle = 120;

/** What the page runs, and how it is told that nothing else may. */
export interface PageCode {
  /** The script that is bundled from `page/`; it defines `sennitPage`. */
  readonly script: string;
  /** SHA-256 of a text as UTF-8, in base64. */
  readonly sha256: (text: string) => string;
}

/**
 * The page of a book as one HTML file that needs nothing beside it: the answer, its pictures, and sliders. Its
 * policy lets nothing load and nothing run but its own style and script, known by their hashes.
 */
export function reportPage(report: BookReport, about: About, code: PageCode): string {
  const { workshop } = report.prices;
  const title = shorten(`Prices${workshop === '' ? '' : ` of ${workshop}`}`, mostTitle);
  const sections = [
    priceLadders(report),
    costBars(report),
    channelMargins(report),
    sensitivity(report),
    scenarioComparison(report),
    breakEvens(report),
    benchHours(report),
    liveSection(report),
  ].filter((each): each is Section => each !== null);
  const script = report.live === null ? '' : liveScript(report.live, code.script);
  const allowed = (text: string): string => (text === '' ? "'none'" : `'sha256-${code.sha256(text)}'`);
  const policy = `default-src 'none'; script-src ${allowed(script)}; style-src ${allowed(reportStyle)}; base-uri 'none'; form-action 'none'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${reportStyle}</style>
</head>
<body>
<a class="skip" href="#main">To the figures</a>
<main id="main">
<h1><bdi>${escaped(title)}</bdi></h1>
<p class="soft">Amounts in ${escaped(report.prices.currency)} · ${escaped(about.date)} · Sennit ${escaped(about.version)}</p>
${headline(report)}
<nav aria-label="On this page"><ul>
${sections.map(({ id, link }) => `<li><a href="#${id}">${escaped(link)}</a></li>`).join('\n')}
</ul></nav>
${sections.map(sectionHtml).join('\n')}
<footer>
<p>Every figure is a cell of the book’s sheets; the workbook shows its formula. Cord is <em>estimated</em> from geometry until test pieces are measured.</p>
<p>Tax, consumer and accounting law differ by place: these figures prepare a talk with a licensed professional, they do not replace one.</p>
</footer>
</main>
${script === '' ? '' : `<script>${script}</script>\n`}</body>
</html>
`;
}

function sectionHtml({ id, title, html }: Section): string {
  return `<section id="${id}" aria-labelledby="${id}-title">
<h2 id="${id}-title">${escaped(title)}</h2>
${html}
</section>`;
}

/** Texts of the maker's may stand in programs, inside quotation marks: no tag may end the script there. */
function liveScript({ model, heldSource, followingSource }: Live, bundle: string): string {
  const safe = (source: string): string => source.replace(/<(?=\/|!--|script)/gi, '\\x3C');
  return `${safe(bundle)}
sennitPage.start(${modelSource(model)},
${safe(heldSource)},
${safe(followingSource)});
`;
}
