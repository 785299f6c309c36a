import { convertLength } from '../../book/measure.ts';
import type { Settings } from '../../book/settings.ts';
import { showNumber } from '../../sheets/showValue.ts';
import { escaped } from '../escaped.ts';
import type { Card } from './card.ts';
import { corePlaces, cutaway, drawPiece, roleOf } from './drawPiece.ts';
import { fineText, lengthText } from './lengthText.ts';
import { type SetUp, setUp } from './setUp.ts';
import { dimension, label, letterMm, mm, rowMm } from './svg.ts';

/** Kept free beside the full-size drawing, for its width. */
const besideMm = 30;
/** A piece of a few millimetres is not blown up, and no scale is more than this: ten metres on a card. */
const mostScale = 200;

/**
 * The set-up of a piece as SVG in millimetres of paper: the whole piece at the largest whole scale that fits,
 * and, where that is not full size, its left end at full size, to lay the work on.
 *
 * @param widthMm of paper that the figure may take
 * @param id beginning of the names inside it, one of its kind on the page
 */
export function setUpFigure(card: Card, settings: Settings, widthMm: number, id: string): string {
  const piece = setUp(card);
  const fits = piece.lengthMm <= widthMm - besideMm;
  const scale = fits ? 1 : Math.min(mostScale, Math.max(2, Math.ceil(piece.lengthMm / (widthMm - 2))));
  const whole = wholePiece(card, piece, settings, widthMm, scale);
  const parts = [whole.svg];
  let heightMm = whole.heightMm;
  if (!fits) {
    const end = leftEnd(card, piece, settings, widthMm, heightMm, `${id}-clip`);
    parts.push(end.svg);
    heightMm += end.heightMm;
  }
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${mm(widthMm)} ${mm(heightMm)}" width="${mm(widthMm)}mm" height="${mm(heightMm)}mm" role="img" aria-labelledby="${id}-title ${id}-desc" font-size="${letterMm}">`,
    `<title id="${id}-title">${escaped(`Set-up of ${card.name}${card.size === '' ? '' : `, ${card.size}`}`)}</title>`,
    `<desc id="${id}-desc">${escaped(inWords(card, piece, settings, scale))}</desc>`,
    ...parts,
    '</svg>',
  ].join('\n');
}

interface Part {
  readonly svg: string;
  readonly heightMm: number;
}

const scaleText = (scale: number): string => (scale === 1 ? 'full size' : `1 : ${scale}`);

function wholePiece(card: Card, piece: SetUp, settings: Settings, widthMm: number, scale: number): Part {
  const isOnly = scale === 1;
  const x = (alongMm: number): number => 1 + alongMm / scale;
  const endX = x(piece.lengthMm);
  const parts = [
    label(0, letterMm, wholeWords(card, piece, settings, scale), widthMm - 42),
    scaleBar(widthMm, scale, settings),
  ];
  let y = rowMm + 4.5;
  if (card.finishedMm !== null) {
    parts.push(
      centred(`finished ${lengthText(card.finishedMm, settings)}`, 1, x(card.finishedMm), y, widthMm),
      dimension(1, x(card.finishedMm), y + 1.6),
    );
    y += 7;
  }
  const [fromX, toX] = [x(piece.woven.fromMm), x(piece.woven.toMm)];
  parts.push(centred(wovenWords(card, settings), fromX, toX, y, widthMm), dimension(fromX, toX, y + 1.6));
  y += 3.4;
  const ticks = tickRow(card, piece, settings, x, y, scale);
  parts.push(ticks.svg);
  y += ticks.heightMm;
  const half = halfHeight(card, piece) / scale;
  const middle = y + half;
  parts.push(drawPiece(card, piece, { xMm: 1, yMm: middle, scale, toMm: piece.lengthMm, weave: isOnly }));
  y = middle + half;
  if (isOnly) {
    parts.push(widthMark(card, piece, settings, endX + 3, middle));
    const named = leaders(card, piece, { xMm: 1, middle, top: y, toMm: piece.lengthMm, widthMm });
    parts.push(named.svg);
    y += named.heightMm;
  }
  return { svg: parts.join('\n'), heightMm: y + 2 };
}

function wholeWords(card: Card, piece: SetUp, settings: Settings, scale: number): string {
  const hardware = card.hardwareMm > 0 ? `; ${hardwareWords(card, piece, settings)}` : '';
  return `Whole piece, ${scaleText(scale)}${hardware}`;
}

function wovenWords(card: Card, settings: Settings): string {
  const knots = card.knots === null ? '' : `, ${knotWords(card, settings)}`;
  return `woven ${lengthText(card.wovenMm, settings)}${knots}`;
}

/** `36 half knots in each layer`, to the nearest whole one. */
export function knotWords(card: Card, settings: Settings): string {
  return `${showNumber(card.knots ?? 0, 0, settings)} ${card.counted}${card.layers > 1 ? ' in each layer' : ''}`;
}

function leftEnd(
  card: Card,
  piece: SetUp,
  settings: Settings,
  widthMm: number,
  topMm: number,
  clip: string,
): Part {
  const toMm = Math.min(piece.lengthMm, widthMm - besideMm);
  const half = halfHeight(card, piece);
  const middle = topMm + rowMm + 2 + half + 1;
  const below = middle + half;
  const broken = piece.lengthMm > toMm + 0.5;
  const edge = breakLine(1 + toMm, middle, half + 1.5);
  const named = leaders(card, piece, { xMm: 1, middle, top: below, toMm, widthMm });
  return {
    svg: [
      label(0, topMm + letterMm, 'Left end, full size: lay the work on it', widthMm - 45),
      scaleBar(widthMm, 1, settings, topMm),
      `<clipPath id="${clip}"><rect x="0" y="${mm(middle - half - 3)}" width="${mm(1 + toMm)}" height="${mm(2 * half + 6)}"/></clipPath>`,
      `<g clip-path="url(#${clip})">`,
      drawPiece(card, piece, { xMm: 1, yMm: middle, scale: 1, toMm, weave: true }),
      '</g>',
      broken ? edge : '',
      widthMark(card, piece, settings, 1 + toMm + 4, middle),
      named.svg,
    ].join('\n'),
    heightMm: below + named.heightMm + 1 - topMm,
  };
}

const halfHeight = (card: Card, piece: SetUp): number =>
  Math.max(piece.widthMm, piece.hardware.length > 0 ? (card.slotWidthMm ?? 0) : 0) / 2 + 1;

/** Text over or under a dimension, moved inwards where it would leave the paper. */
function centred(text: string, fromX: number, toX: number, y: number, widthMm: number): string {
  const halfText = (text.length * letterMm * 0.53) / 2;
  const at = Math.min(Math.max((fromX + toX) / 2, halfText), widthMm - halfText);
  return label(at, y, text, widthMm, 'middle');
}

/** A bar as long as it says, whatever size the page is shown at. */
function scaleBar(widthMm: number, scale: number, settings: Settings, topMm = 0): string {
  const unit = settings.lengthUnit;
  const choices =
    unit === 'in' ? [1, 2, 3, 6, 12, 24, 36, 60, 120, 240] : [1, 2, 5, 10, 20, 50, 100, 200, 500];
  const inUnit = unit === 'in' ? 'in' : 'cm';
  const longest = 25 * scale;
  const amount = choices.filter((each) => convertLength(each, inUnit, 'mm') <= longest).at(-1) ?? 1;
  const lengthMm = convertLength(amount, inUnit, 'mm');
  const fromX = widthMm - 1 - lengthMm / scale;
  return [
    dimension(fromX, widthMm - 1, topMm + 2),
    label(fromX - 1.5, topMm + letterMm, lengthText(lengthMm, settings), 20, 'end'),
  ].join('\n');
}

function widthMark(card: Card, piece: SetUp, settings: Settings, x: number, middle: number): string {
  const half = piece.widthMm / 2;
  const isRound = card.widthMm === card.thicknessMm;
  const words =
    card.widthMm === null
      ? ['width not', 'to scale']
      : [
          `${fineText(card.widthMm, settings)} ${isRound ? 'across' : 'wide'}`,
          ...(card.thicknessMm === null || isRound ? [] : [`${fineText(card.thicknessMm, settings)} thick`]),
        ];
  const top = middle + 1 - ((words.length - 1) * 4.2) / 2;
  return [
    `<path class="dim" d="M${mm(x)} ${mm(middle - half)}V${mm(middle + half)}M${mm(x - 1.2)} ${mm(middle - half)}h2.4M${mm(x - 1.2)} ${mm(middle + half)}h2.4"/>`,
    ...words.map((text, at) => label(x + 2, top + at * 4.2, text, 30)),
  ].join('\n');
}

/** A stroke for each half knot or turn where they can be told apart, a longer one and its number at every tenth. */
function tickRow(
  card: Card,
  piece: SetUp,
  settings: Settings,
  x: (alongMm: number) => number,
  y: number,
  scale: number,
): Part {
  const knots = Math.floor((card.knots ?? 0) + 1e-6);
  const pitch = piece.pitchMm;
  if (knots < 1 || pitch === null || knots > 5000) return { svg: '', heightMm: 0 };
  const isFine = pitch / scale >= 0.7;
  const numbered = [10, 20, 50, 100, 200, 500, 1000].find((each) => (each * pitch) / scale >= 8) ?? 1000;
  const foot = y + 5.4;
  const strokes: string[] = [];
  const numbers: string[] = [];
  for (let knot = 0; knot <= knots; knot += 1) {
    const isNumbered = knot % numbered === 0;
    if (!isFine && !isNumbered) continue;
    const at = x(piece.woven.fromMm + knot * pitch);
    strokes.push(`M${mm(at)} ${mm(foot)}v-${isNumbered ? 2 : 1.1}`);
    if (isNumbered && knot > 0)
      numbers.push(label(at, foot - 2.6, showNumber(knot, 0, settings), 10, 'middle'));
  }
  return { svg: `<path class="tick" d="${strokes.join('')}"/>${numbers.join('')}`, heightMm: 5.8 };
}

/** Names of the cords, each with a line to one of its strands: the leftmost hangs lowest, so that none cross. */
function leaders(
  card: Card,
  piece: SetUp,
  at: {
    readonly xMm: number;
    readonly middle: number;
    readonly top: number;
    readonly toMm: number;
    readonly widthMm: number;
  },
): Part {
  const cut = cutaway(card, piece, at.toMm);
  const lowest = Math.max(...corePlaces(card, piece), 0);
  const lowerHalf = Math.max(card.diameterMm, piece.widthMm - 2 * card.diameterMm * (card.layers - 1)) / 2;
  const topHalf = piece.widthMm / 2;
  const inset = card.diameterMm / 2;
  const along = (stretch: { fromMm: number; toMm: number }, part: number): number =>
    stretch.fromMm + (stretch.toMm - stretch.fromMm) * part;
  const layered = card.layers > 1;
  const points = [
    { role: 'core', x: along(cut.core, 0.5), y: lowest },
    // A cord that goes on into the upper layers is named where it lies uppermost.
    ...(['over', 'under'] as const)
      .map((cord, which) => ({
        role: cord,
        x: along(cut.lower, which === 0 ? 0.35 : 0.75),
        y: which === 0 ? 0 : lowerHalf - inset,
      }))
      .filter(({ role }) => layered && roleOf(card, role, 'top') !== role),
    ...(['over', 'under'] as const).map((cord, which) => ({
      role: roleOf(card, cord, 'top'),
      x: along(cut.top, layered ? 0.25 + 0.2 * which : 0.15 + 0.2 * which),
      y: which === 0 ? 0 : topHalf - inset,
    })),
  ].flatMap((point) => {
    const cord = card.cords.find(({ role }) => role === point.role);
    if (cord === undefined) return [];
    const strands = cord.cords * cord.strandsInEach;
    return [{ ...point, text: `${cord.role}: ${strands > 1 ? `${strands} of ` : ''}${cord.cord}` }];
  });
  const parts = points.map((point, order) => {
    const row = points.length - 1 - order;
    const x = at.xMm + point.x;
    const y = at.top + rowMm * (row + 1);
    return `<path class="leader" d="M${mm(x)} ${mm(at.middle + point.y)}V${mm(y - 1)}h1.5"/><circle class="dot" cx="${mm(x)}" cy="${mm(at.middle + point.y)}" r="0.7"/>${label(x + 2.5, y, point.text, at.widthMm - x - 3)}`;
  });
  return { svg: parts.join('\n'), heightMm: points.length * rowMm + 1 };
}

function breakLine(x: number, middle: number, half: number): string {
  const waves = Array.from(
    { length: 6 },
    (_, at) => `q${at % 2 === 0 ? 1.4 : -1.4} ${mm(half / 6)} 0 ${mm(half / 3)}`,
  );
  return `<path class="break" d="M${mm(x)} ${mm(middle - half)}${waves.join('')}"/>`;
}

function hardwareWords(card: Card, piece: SetUp, settings: Settings): string {
  const where = piece.hardware.length === 1 ? 'at one end' : 'drawn half at each end';
  return `hardware takes ${lengthText(card.hardwareMm, settings)}, ${where}`;
}

/** The figure for those who hear it. */
function inWords(card: Card, piece: SetUp, settings: Settings, scale: number): string {
  const words = [
    `Drawn ${scale === 1 ? 'at full size' : `at ${scaleText(scale)}, with its left end at full size`}.`,
    card.finishedMm === null ? '' : `Finished length ${lengthText(card.finishedMm, settings)}.`,
    card.hardwareMm > 0 ? `Of this, ${hardwareWords(card, piece, settings)}.` : '',
    `Woven part ${lengthText(card.wovenMm, settings)}${card.widthMm === null ? '; its width is not to scale' : `, ${fineText(card.widthMm, settings)} wide`}.`,
    card.knots === null ? '' : `${knotWords(card, settings)}.`,
    ...card.cords.map(
      (cord) =>
        `${cord.role}: ${cord.cords * cord.strandsInEach} of ${cord.cord}${cord.colour === '' ? '' : ` (${cord.colour})`}.`,
    ),
  ];
  return words.filter((each) => each !== '').join(' ');
}
