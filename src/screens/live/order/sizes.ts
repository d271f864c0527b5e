import { ACCENTED, CAP_EM, fit, fitBlock, type Run, widthEm } from '../../../widgets/fit.ts';
import type { Figure } from '../../../words/orders.ts';
import { type Layout, orderRect, type Rect } from '../layout.ts';

/** Where the parts of an alarm stand in the order zone, and how large: found by measuring, for each arrangement. */

type Form = 'urgent' | 'high' | 'was';

export interface BlockParts {
  readonly verb: readonly string[];
  readonly figures: readonly Figure[];
  /** Wraps; all of it is seen. */
  readonly sentence: readonly Run[];
  /** The key that opens the drawer stands beside it: nothing is asked to be acknowledged. */
  readonly more: boolean;
  /** The word that tells an alarm of a practice from a real one; null: it is a real one. */
  readonly practice: string | null;
}

export interface BlockLayout {
  readonly zone: Rect;
  /** The verb's lines as they are set: one where that is larger. */
  readonly lines: readonly string[];
  readonly verb: Rect;
  readonly verbPx: number;
  /** From line to line, em. */
  readonly verbLineEm: number;
  readonly shape: Rect;
  /** One a figure; one for all where they stand in a line. */
  readonly figures: readonly Rect[];
  readonly inLine: boolean;
  readonly labelPx: number;
  readonly figurePx: number;
  readonly sentence: Rect;
  readonly sentencePx: number;
  /** The word of a practice where there is room for it by itself; null: it begins the sentence. */
  readonly practice: { readonly at: Rect; readonly px: number } | null;
}

/** Lines of capitals stand this close, em; those of an alarm that is over have small letters that reach below. */
const CAPITALS_LINE_EM = 0.9;
const SMALL_LETTERS_LINE_EM = 1.15;
const lineHeightEm = (form: Form): number => (form === 'was' ? SMALL_LETTERS_LINE_EM : CAPITALS_LINE_EM);
/** And the letters of a line (live.css). */
export const VERB_GAP_EM = -0.03;

const rect = (x: number, y: number, w: number, h: number): Rect => ({
  x,
  y,
  w: Math.max(0, w),
  h: Math.max(0, h),
});
/** Lower than this a word by itself is smaller than in the sentence, px. */
const LEAST_PRACTICE_H = 34;

const lineEm = (line: string) => widthEm(line, 700, VERB_GAP_EM);
const longest = (lines: readonly string[]) => Math.max(...lines.map(lineEm), 0.01);

/** The shape at the end of the line that leaves it the most room. */
function shapeAt(
  lines: readonly string[],
  px: number,
  verb: Pick<Rect, 'x' | 'y' | 'w'>,
  most: number,
  gap: number,
  heightEm: number,
): Rect {
  const ends = lines.map((line) => lineEm(line) * px);
  const i = ends.reduce((best, end, k) => (end <= ends[best]! ? k : best), 0);
  const end = (ends[i] ?? 0) + gap;
  const side = Math.round(Math.max(0, Math.min(px * 0.9, most, verb.w - end)));
  const lineH = heightEm * px;
  return rect(verb.x + end, verb.y + i * lineH + (lineH - side) / 2, side, side);
}

/** Beside the word of a practice, which stands on a plate, em (live.css). */
const PRACTICE_PLATE_EM = 0.8;

/** The sentence as it is read; of a practice it begins with the word, unless that stands by itself. */
const runsOf = ({ practice, sentence }: BlockParts, isApart: boolean): readonly Run[] =>
  practice === null || isApart
    ? sentence
    : [{ text: practice, weight: 700, besideEm: PRACTICE_PLATE_EM }, ...sentence];

/** The word of a practice by itself: read from as far as the order. */
function practiceIn({ practice }: BlockParts, at: Rect): BlockLayout['practice'] {
  if (practice === null || at.h < LEAST_PRACTICE_H) return null;
  const px = fit(practice, {
    width: at.w,
    height: (at.h / 1.3) * CAP_EM,
    besideEm: PRACTICE_PLATE_EM,
  });
  return { at, px };
}

/** The largest verb in a room, in as many lines as it is written in or in one. */
function verbIn(
  verb: readonly string[],
  w: number,
  h: number,
  form: Form,
  oneLine = form === 'high',
): { lines: readonly string[]; px: number } {
  const heightEm = lineHeightEm(form);
  const sizeOf = (lines: readonly string[]) =>
    fit(lines, {
      width: w,
      height: (h / (lines.length * heightEm)) * CAP_EM,
      spacingEm: VERB_GAP_EM,
    });
  const lines = oneLine ? [verb.join(' ')] : verb;
  const px = sizeOf(lines);
  // An accent stands over its capital: one line that fills its room would lose it at the upper edge.
  const most = lines.length === 1 && ACCENTED.test(lines[0] ?? '') ? Math.floor((h * 0.8) / heightEm) : px;
  return { lines, px: Math.min(px, most) };
}

const widthOf = (figures: readonly Figure[], labelPx: number, figurePx: number) =>
  Math.ceil(
    Math.max(
      0,
      ...figures.map(([label, value]) => Math.max(widthEm(label, 400) * labelPx, widthEm(value) * figurePx)),
    ),
  );

/** An urgent order of this size is 15 mm high on a 10-inch tablet, px. */
const FAR_VERB_PX = 104;

function wide(l: Layout, zone: Rect, parts: BlockParts, form: Form): BlockLayout {
  const high = form !== 'urgent';
  const left = zone.x + 22;
  const right = (parts.more ? l.more.x : l.key.x) - 20;
  const footH = 42;
  const h = zone.h - footH - 15;
  const labelPx = 17;
  const asWide = (mostShape: number, mostFigure: number) => {
    const shapeS = Math.round(Math.min(high ? 0.5 * h : 0.44 * h, mostShape));
    const figurePx = Math.round(Math.min(h * 0.27, mostFigure));
    const figuresW = widthOf(parts.figures, labelPx, figurePx);
    const verbX = left + shapeS + 20;
    const verbW = right - verbX - (figuresW > 0 ? figuresW + 28 : 0);
    return { shapeS, figurePx, figuresW, verbX, verbW, ...verbIn(parts.verb, verbW, h, form) };
  };
  const roomy = asWide(110, 66);
  // Beside a long order its shape and its figures are smaller: the order is what is read from far.
  const narrow = !high && roomy.px < FAR_VERB_PX ? asWide(48, 44) : roomy;
  const { shapeS, figurePx, figuresW, verbX, verbW, lines, px } = narrow.px > roomy.px ? narrow : roomy;
  const used = Math.min(verbW, Math.ceil(longest(lines) * px));
  const figureX = verbX + used + 28;
  const cell = h / 2;
  // What an urgent alarm takes of the cure line is free over the acknowledge key.
  const practice = high
    ? null
    : practiceIn(parts, rect(l.key.x, zone.y + 14, l.key.w, l.ack.y - 8 - zone.y - 14));
  const sentence = runsOf(parts, practice !== null);
  return {
    zone,
    lines,
    verb: rect(verbX, zone.y + 9, verbW, h),
    verbPx: px,
    verbLineEm: lineHeightEm(form),
    shape: rect(left, zone.y + 10 + (h - shapeS) / 2, shapeS, shapeS),
    figures: parts.figures.map((_, i) => rect(figureX, zone.y + 12 + i * cell, figuresW, cell)),
    inLine: false,
    labelPx,
    figurePx,
    sentence: rect(left, zone.y + zone.h - footH - 6, right - left, footH),
    sentencePx: fitBlock(sentence, { width: right - left, height: footH }, { most: 20, least: 13 }),
    practice,
  };
}

/** Between two figures of a column, px. */
const FIGURE_ROW_GAP = 6;

function tall(l: Layout, zone: Rect, parts: BlockParts, form: Form): BlockLayout {
  const high = form !== 'urgent';
  const left = zone.x + 22;
  const w = zone.w - 44;
  const h = l.ack.y - 8 - zone.y - 12;
  const { lines, px } = verbIn(parts.verb, high ? w - 90 : w, h, form);
  const top = zone.y + 12 + (h - lines.length * lineHeightEm(form) * px) / 2;
  // In one column left of the keys, one under the other and the sentence beside them; beside each other where More stands below.
  const columnW = l.ack.x - left - 12;
  const isColumn = parts.figures.length > 0 && !parts.more;
  const eachW = parts.more ? (columnW - 12) / 2 : columnW;
  const labelPx = parts.more ? 13 : 17;
  const eachH = isColumn
    ? (l.key.y + l.key.h - l.ack.y - FIGURE_ROW_GAP) / Math.max(2, parts.figures.length)
    : l.ack.h;
  const values = parts.figures.map(([, value]) => value);
  const figurePx = fit(values, {
    width: eachW,
    height: Math.min(parts.more ? 38 : 52, eachH - 1.15 * labelPx) * CAP_EM,
  });
  // No further down than their own size: figures of one alarm are read together.
  const stepY = Math.min(eachH, 1.15 * labelPx + figurePx + FIGURE_ROW_GAP + 8);
  const figuresEnd = l.ack.y + stepY * parts.figures.length;
  const practice =
    parts.figures.length === 0
      ? practiceIn(parts, rect(left, l.ack.y, columnW, l.ack.h))
      : isColumn
        ? practiceIn(parts, rect(left, figuresEnd, columnW, l.key.y + l.key.h - figuresEnd))
        : null;
  const ackEnd = l.ack.y + l.ack.h;
  const sentence = isColumn
    ? rect(l.ack.x, ackEnd + 2, l.ack.w, l.key.y - ackEnd - 4)
    : rect(left, l.row.y, w, l.row.h);
  return {
    zone,
    lines,
    verb: rect(left, zone.y + 12, w, h),
    verbPx: px,
    verbLineEm: lineHeightEm(form),
    shape: shapeAt(lines, px, { x: left, y: top, w }, 110, 20, lineHeightEm(form)),
    figures: parts.figures.map((_, i) =>
      isColumn
        ? rect(left, l.ack.y + i * stepY, eachW, stepY - FIGURE_ROW_GAP)
        : rect(left + i * (eachW + 12), l.ack.y, eachW, l.ack.h),
    ),
    inLine: false,
    labelPx,
    figurePx,
    sentence,
    sentencePx: fitBlock(
      runsOf(parts, practice !== null),
      { width: sentence.w, height: sentence.h },
      { most: 22, least: 13 },
    ),
    practice,
  };
}

/** Between figures that stand in a line, and between the name and the value of each, px (live.css). */
const FIGURE_GAPS = 20;

/** Height of the figures' line in the hand, and of it with the sentence under it, px: three lines of 11 px. */
const HAND_FIGURE_H = 20;
const HAND_TEXT_H = 60;
/** A high verb of two lines there, px: urgent ones have 50 and more. */
const HAND_HIGH_PX = 42;
/** Lines of the sentence there, em (live.css). */
const HAND_LINE_EM = 1.15;

/** Read from the hand: figures in one line under the verb, the sentence under them. */
function inHand(l: Layout, zone: Rect, parts: BlockParts, form: Form): BlockLayout {
  const high = form !== 'urgent';
  const edge = high ? 14 : 10;
  const left = zone.x + edge;
  const beside = l.ack.x > zone.x + zone.w / 2;
  const w = beside ? l.ack.x - 8 - left : zone.w - 2 * edge;
  const figureH = parts.figures.length > 0 ? HAND_FIGURE_H : 0;
  // The row under the acknowledge key is free in a tall window: figures and sentence stand there.
  const underAck = l.mode === 'tall';
  const bottom = beside ? l.key.y - 4 : l.ack.y - 4;
  // Without figures the sentence has their room.
  const sentenceH = HAND_TEXT_H - figureH;
  const h = underAck ? bottom - zone.y - 6 : bottom - zone.y - 6 - HAND_TEXT_H;
  const verbW = high && underAck ? w - 50 : w;
  const two = verbIn(parts.verb, verbW, h, form, false);
  const one = verbIn(parts.verb, verbW, h, form, true);
  // In two lines a high one is never as large as an urgent one; a short one is larger in one line than that.
  const capped = { ...two, px: Math.min(two.px, HAND_HIGH_PX) };
  const { lines, px } = form !== 'high' || !underAck ? two : one.px > capped.px ? one : capped;
  const top = zone.y + 6;
  const used = lines.length * lineHeightEm(form) * px;
  const verbTop = top + Math.max(0, (h - used) / 2);
  const textY = underAck ? l.row.y : top + h;
  return {
    zone,
    lines,
    verb: rect(left, top, w, h),
    verbPx: px,
    verbLineEm: lineHeightEm(form),
    shape: shapeAt(lines, px, { x: left, y: verbTop, w }, 72, 10, lineHeightEm(form)),
    figures: [rect(left, textY, w, figureH)],
    inLine: true,
    labelPx: 11,
    figurePx: 20,
    // Under the acknowledge key as well: it ends above it where it stands beside.
    sentence: rect(left, textY + figureH, zone.w - 2 * edge, sentenceH),
    sentencePx: fitBlock(
      runsOf(parts, false),
      { width: zone.w - 2 * edge, height: sentenceH },
      { most: 13, least: 10, lineEm: HAND_LINE_EM },
    ),
    practice: null,
  };
}

/** A low window with room: the verb over the sentence, the figures beside the acknowledge key. */
function lowRoomy(l: Layout, zone: Rect, parts: BlockParts, form: Form): BlockLayout {
  const left = zone.x + 6;
  const w = zone.w - 12;
  const top = zone.y + 3;
  const sentenceH = 36;
  const h = l.row.y - 2 - sentenceH - top;
  const { lines, px } = verbIn(parts.verb, w, h, form, false);
  const verbTop = top + Math.max(0, (h - lines.length * lineHeightEm(form) * px) / 2);
  const beside = 0.5;
  const em = parts.figures.reduce(
    (sum, [label, value]) => sum + beside * widthEm(label, 400) + widthEm(value),
    0,
  );
  const gaps = FIGURE_GAPS * parts.figures.length;
  const figurePx = Math.floor(Math.min(24, (l.row.w - gaps) / Math.max(0.01, em)));
  return {
    zone,
    lines,
    verb: rect(left, top, w, h),
    verbPx: px,
    verbLineEm: lineHeightEm(form),
    shape: shapeAt(lines, px, { x: left, y: verbTop, w }, 72, 10, lineHeightEm(form)),
    figures: [rect(left, l.row.y + (l.row.h - figurePx * 1.2) / 2, l.row.w, figurePx * 1.2)],
    inLine: true,
    labelPx: figurePx * beside,
    figurePx,
    sentence: rect(left, top + h, w, sentenceH),
    sentencePx: fitBlock(
      runsOf(parts, false),
      { width: w, height: sentenceH },
      { most: 14, least: 10, lineEm: HAND_LINE_EM },
    ),
    practice: null,
  };
}

/** @param form which zone it takes */
export function blockLayout(l: Layout, form: Form, parts: BlockParts): BlockLayout {
  const zone = orderRect(l, form);
  if (l.mode === 'low' && l.ack.y === l.row.y) return lowRoomy(l, zone, parts, form);
  if (l.small) return inHand(l, zone, parts, form);
  return l.mode === 'wide' ? wide(l, zone, parts, form) : tall(l, zone, parts, form);
}

/** Beside an instruction that stands on a plate, em (live.css). */
const SAY_PLATE_EM = 0.3;

export interface InstructionLayout {
  readonly sayPx: number;
  readonly besidesPx: number;
}

/** @param rowUsed answers or a plate stand in the place of the second sentence */
export function instructionLayout(
  l: Layout,
  say: string,
  besides: string,
  rowUsed: boolean,
): InstructionLayout {
  const h = rowUsed ? l.row.y - 4 - l.text.y : l.text.h;
  const most = l.small ? 28 : l.mode === 'wide' ? (l.w >= 1500 ? 76 : 60) : 58;
  const sayPx = fit(say, {
    width: l.text.w,
    height: Math.min(most, rowUsed ? h / 1.15 : h * 0.62) * CAP_EM,
    besideEm: SAY_PLATE_EM,
  });
  const left = h - sayPx * 1.2;
  const besidesPx = fitBlock(
    besides,
    { width: l.text.w, height: left },
    { most: Math.min(l.small ? 16 : 30, Math.max(l.small ? 13 : 22, sayPx * 0.5)), least: l.small ? 11 : 16 },
  );
  return { sayPx, besidesPx };
}
