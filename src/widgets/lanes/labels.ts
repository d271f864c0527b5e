import { CAP, type Measure, type Tone } from './shape.ts';

/** The labels beside the ladder: a name over its value. They are merged, stacked and led to their marks, never overprinted. */

export interface Label {
  readonly key: string;
  readonly name: string;
  readonly value: string;
  /** Where its mark stands, px. */
  readonly y: number;
  /** Aim of the stage: on a black plate. */
  readonly isAim?: boolean;
  /** A forecast: in a dashed frame. */
  readonly isForecast?: boolean;
  readonly isBold?: boolean;
  /** Tone of its text and frame; ink where it is left out. */
  readonly tone?: Tone;
  /** Kept to the last where there is no room for all: 0 first. */
  readonly rank: number;
  /** A smaller value: what is no reading of now. */
  readonly isQuiet?: boolean;
}

export interface PlacedLabel extends Label {
  /** Marks that read the same are named together, one name a line. */
  readonly names: readonly string[];
  /** Where each of its marks stands, px: a leader goes to each. */
  readonly marks: readonly number[];
  /** Upper edge and height of the label, px. */
  readonly top: number;
  readonly height: number;
  readonly nameSize: number;
  readonly valueSize: number;
  /** Name and value stand in one line. */
  readonly oneLine: boolean;
}

export interface LabelRoom {
  readonly top: number;
  readonly bottom: number;
  readonly width: number;
  readonly small: boolean;
}

/** Inside a label, px from its edges. */
export const labelPad = (small: boolean): number => (small ? 3 : 6);
/** From this rank on a label is left out before the others are set smaller. */
const SPARE = 5;

/** From the last name's line to the value's, px: a small value leaves room for letters that reach under the line. */
export const valueStep = ({ nameSize, valueSize }: Pick<PlacedLabel, 'nameSize' | 'valueSize'>): number =>
  Math.max(valueSize * (CAP + 0.18), nameSize * 1.12);

interface Draft extends Label {
  names: string[];
  marks: number[];
  nameSize: number;
  valueSize: number;
  oneLine: boolean;
  height: number;
  top: number;
}

/** A name in lines that are no wider than the room; a single word that is too wide is set smaller. */
function wrapped(
  name: string,
  size: number,
  bold: boolean,
  room: number,
  measure: Measure,
): { lines: string[]; size: number } {
  const widest = Math.max(...name.split(' ').map((word) => measure(word, size, bold)));
  const fitted = widest > room ? (size * room) / widest : size;
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines[lines.length - 1]} ${word}`;
    if (lines.length > 0 && measure(longer, fitted, bold) <= room) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return { lines, size: fitted };
}

/** Marks that stand together and read the same are one label; the aim and the forecast stay their own. */
function merged(labels: readonly Label[]): Draft[] {
  const out: Draft[] = [];
  for (const l of [...labels].sort((a, b) => a.y - b.y)) {
    const last = out[out.length - 1];
    const alone = (x: Label) => x.isAim === true || x.isForecast === true || x.isQuiet === true;
    if (last !== undefined && last.value === l.value && !alone(last) && !alone(l)) {
      last.names.push(l.name);
      last.marks.push(l.y);
      out[out.length - 1] = {
        ...last,
        rank: Math.min(last.rank, l.rank),
        isBold: last.isBold || l.isBold || false,
      };
    } else
      out.push({
        ...l,
        names: [l.name],
        marks: [l.y],
        nameSize: 0,
        valueSize: 0,
        oneLine: false,
        height: 0,
        top: 0,
      });
  }
  return out;
}

function sized(draft: Draft, oneLine: boolean, room: LabelRoom, measure: Measure): Draft {
  const { small } = room;
  const width = room.width - 2 * labelPad(small);
  const bold = draft.isBold === true;
  const nameSize = small ? 11 : 14.5;
  const fullValue = draft.isQuiet ? (small ? 11 : 14.5) : small ? 14.5 : room.width > 88 ? 24 : 20;
  const fitValue = (size: number, limit: number) => {
    const wide = measure(draft.value, size, true);
    return wide > limit ? (size * limit) / wide : size;
  };
  const names = draft.names.flatMap((n) => wrapped(n, nameSize, bold, width, measure).lines);
  const least = Math.min(...draft.names.map((n) => wrapped(n, nameSize, bold, width, measure).size));
  if (!oneLine) {
    const valueSize = fitValue(fullValue, width);
    const step = valueStep({ nameSize: least, valueSize });
    const height = Math.ceil(names.length * least * 1.12 + step + (small ? 5 : 7));
    return { ...draft, names, nameSize: least, valueSize, oneLine, height };
  }
  // Name and value share a line, as large as both of them fit.
  const size = small ? 11 : 14;
  const text = draft.names.join(' ');
  const gap = size * 0.4;
  const wide = measure(text, size, bold) + gap + measure(draft.value, size, true);
  const fitted = Math.min(size, (size * width) / wide);
  return {
    ...draft,
    names: [text],
    nameSize: fitted,
    valueSize: fitted,
    oneLine,
    height: Math.ceil(size * 1.12 + (small ? 2 : 4)),
  };
}

const total = (drafts: readonly Draft[]) => drafts.reduce((sum, d) => sum + d.height, 0);

/** Puts labels where their marks are, as near as their heights and the room allow, in the order of the marks. */
function spread(drafts: Draft[], room: LabelRoom): void {
  // Blocks that touch are pushed on together, each kept about the middle of what its labels wish for.
  const blocks: { from: number; to: number; wish: number; height: number; top: number }[] = [];
  const topOf = (wish: number, height: number) =>
    Math.min(room.bottom - height, Math.max(room.top, wish - height / 2));
  for (const [i, d] of drafts.entries()) {
    const middle = d.marks.reduce((sum, y) => sum + y, 0) / d.marks.length;
    blocks.push({ from: i, to: i, wish: middle, height: d.height, top: topOf(middle, d.height) });
    for (;;) {
      const last = blocks[blocks.length - 1]!;
      const before = blocks[blocks.length - 2];
      if (before === undefined || before.top + before.height <= last.top) break;
      const height = before.height + last.height;
      // The wish of a block: its labels' wishes, each less its own place in the block.
      const count = last.to - before.from + 1;
      let sum = 0;
      let offset = 0;
      for (const k of drafts.slice(before.from, last.to + 1)) {
        sum += k.marks.reduce((s, y) => s + y, 0) / k.marks.length - (offset + k.height / 2 - height / 2);
        offset += k.height;
      }
      const wish = sum / count;
      blocks.splice(-2, 2, { from: before.from, to: last.to, wish, height, top: topOf(wish, height) });
    }
  }
  for (const b of blocks) {
    let top = b.top;
    for (let i = b.from; i <= b.to; i++) {
      drafts[i]!.top = top;
      top += drafts[i]!.height;
    }
  }
}

/**
 * Labels where they are drawn. With little room names and values share a line; with less still the lowest in rank go.
 * @returns in the order of their marks, from the top
 */
export function placeLabels(
  labels: readonly Label[],
  room: LabelRoom,
  measure: Measure,
): readonly PlacedLabel[] {
  const height = room.bottom - room.top;
  let drafts = merged(labels).map((d) => sized(d, false, room, measure));
  const dropWorst = (least: number) => {
    while (drafts.length > 1 && total(drafts) > height) {
      const worst = drafts.reduce((a, b) => (b.rank > a.rank ? b : a));
      if (worst.rank < least) return;
      drafts = drafts.filter((d) => d !== worst);
    }
  };
  // Fewer labels that can be read before more that can't: what the moment does not need goes first.
  dropWorst(SPARE);
  if (total(drafts) > height) drafts = drafts.map((d) => sized(d, true, room, measure));
  dropWorst(0);
  spread(drafts, room);
  return drafts;
}
