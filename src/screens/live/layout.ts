import { lanesBox } from '../../widgets/lanes/geometry.ts';

/**
 * Where everything of the live page stands: one table of rectangles a window's shape, so that no zone depends on what
 * another one shows. Nothing here knows a stage or an alarm but for the lead's share, which moves no key.
 */

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** `wide`: trace and ladder beside the lead; `tall`: under it; `low`: all in two columns, enlarged as a whole. */
export type Mode = 'wide' | 'tall' | 'low';

/** The drawing of trace, ladder and temperatures, with what it divides its room by. */
export interface LanesRect extends Rect {
  /** Width of the now column at the right: ladder, and the temperatures of now under it. */
  readonly ladderW: number;
  readonly ribbonH: number;
  readonly tempH: number;
  readonly axisH: number;
  /** Read from the hand: thin lines, short names. */
  readonly small: boolean;
}

export interface Layout {
  readonly mode: Mode;
  readonly small: boolean;
  /** Striped as no real line's face is. */
  readonly practice: boolean;
  /** All rectangles are in px of the drawing; a window's px is this many times larger. */
  readonly zoom: number;
  /** The whole drawing. */
  readonly w: number;
  readonly h: number;
  readonly gap: number;
  /** Inside a zone. */
  readonly pad: number;
  readonly strip: Rect;
  /** Pressure and time together. */
  readonly lead: Rect;
  readonly pressure: Rect;
  readonly time: Rect;
  readonly lanes: LanesRect;
  /** What the More drawer covers: the trace, never the ladder. */
  readonly drawer: Rect;
  readonly cure: Rect;
  readonly order: Rect;
  /** What an urgent alarm takes. */
  readonly alarm: Rect;
  /** What a high alarm takes. */
  readonly alarmHigh: Rect;
  /** Inside the order zone: the instruction, the row of answers under it, More, the stage key. */
  readonly text: Rect;
  readonly row: Rect;
  /** In the place of the row: an alarm under the instruction, with a key of its own. */
  readonly plate: Rect;
  readonly more: Rect;
  readonly key: Rect;
  /** Acknowledge: where no key stands at any time. */
  readonly ack: Rect;
}

/** Width of the stripes round a practice, px. */
export const PRACTICE_FRAME = 6;
/** Shares of the lead that the pressure has. */
export const SHARE = { fill: 0.56, hold: 0.42 } as const;
/** A key is never smaller than this in the drawing, px. */
export const LEAST_TARGET = 56;

/** Sizes that the arrangements were drawn for, px: larger windows enlarge them, smaller ones make them smaller, as a whole. */
const DRAWN = {
  wide: { w: 1600, h: 1000, leastW: 1000 },
  tall: { w: 820, h: 1180, leastW: 720, leastH: 860 },
  hand: { w: 360, h: 740, leastH: 640 },
  low: { w: 740, h: 360 },
} as const;
/** Lower than this a wide window is `low`; narrower than this a tall one is held in the hand, px. */
const LOW_H = 640;
const HAND_W = 640;
/** So high a low drawing has room for the acknowledge key under its verb, px. */
const ROOMY_LOW_H = 400;
/** Width of the ladder's column in a low drawing, and the least of the trace: the drawer lies over it, px. */
const LOW_LADDER_W = 162;
const LOW_DRAWER_W = 170;

const clamp = (least: number, value: number, most: number) => Math.min(most, Math.max(least, value));
const rect = (x: number, y: number, w: number, h: number): Rect => ({ x, y, w, h });

function zoomOf(mode: Mode, hand: boolean, w: number, h: number): number {
  if (mode === 'low') return Math.min(w / DRAWN.low.w, h / DRAWN.low.h);
  if (mode === 'tall' && hand) {
    const d = DRAWN.hand;
    // The lanes give way first: only a window lower than that makes all smaller.
    return Math.min(w / d.w, Math.max(h / d.h, Math.min(1, h / d.leastH)));
  }
  if (mode === 'tall') {
    const d = DRAWN.tall;
    return w > d.w && h > d.h ? Math.min(w / d.w, h / d.h) : Math.min(1, w / d.leastW, h / d.leastH);
  }
  const d = DRAWN.wide;
  return w > d.w && h > d.h ? Math.min(w / d.w, h / d.h) : Math.min(1, w / d.leastW);
}

/** What the three arrangements have in common: the drawing's size and its margins. */
interface Ground {
  readonly w: number;
  readonly h: number;
  readonly gap: number;
  readonly x0: number;
  readonly x1: number;
  readonly top: number;
  readonly bottom: number;
  readonly strip: Rect;
  readonly share: number;
}

type Zones = Omit<
  Layout,
  'mode' | 'small' | 'practice' | 'zoom' | 'w' | 'h' | 'gap' | 'pad' | 'strip' | 'drawer'
>;

function wide(g: Ground): Zones {
  const { gap, x0, x1, top, bottom, w, h } = g;
  const pad = 12;
  const orderH = Math.round(clamp(164, h * 0.214, 236));
  const cureH = Math.round(Math.max(54, h * 0.074));
  const leadW = Math.round(clamp(420, w * 0.39, 660));
  const order = rect(x0, bottom - orderH, x1 - x0, orderH);
  const cure = rect(x0, order.y - gap - cureH, x1 - x0, cureH);
  const middle = cure.y - gap - top;
  const lead = rect(x1 - leadW, top, leadW, middle);
  const pressureH = Math.round(middle * g.share);
  const keyW = Math.round(Math.min(330, order.w * 0.23));
  const keyH = Math.round(Math.max(72, orderH * 0.44));
  const key = rect(order.x + order.w - 16 - keyW, order.y + orderH - pad - keyH, keyW, keyH);
  const more = rect(key.x - 12 - 128, key.y, 128, keyH);
  const ackY = order.y + pad;
  const textX = order.x + 22;
  const rowH = 60;
  const row = rect(textX, order.y + orderH - pad - rowH, more.x - 18 - textX, rowH);
  return {
    lead,
    pressure: rect(lead.x, lead.y, leadW, pressureH),
    time: rect(lead.x, lead.y + pressureH, leadW, middle - pressureH),
    lanes: {
      ...rect(x0, top, x1 - x0 - leadW - gap, middle),
      ladderW: Math.round(clamp(232, w * 0.205, 330)),
      ribbonH: 34,
      tempH: Math.round(middle * 0.17),
      axisH: 22,
      small: false,
    },
    cure,
    order,
    alarm: rect(x0, cure.y, x1 - x0, bottom - cure.y),
    alarmHigh: order,
    text: rect(textX, order.y + pad, more.x - 18 - textX, orderH - 2 * pad),
    row,
    plate: row,
    more,
    key,
    ack: rect(key.x, ackY, keyW, key.y - 12 - ackY),
  };
}

function tall(g: Ground, hand: boolean): Zones {
  const { gap, x0, x1, top, bottom } = g;
  const pad = hand ? 8 : 16;
  const [leadH, orderH, cureH] = hand ? [118, 174, 42] : [240, 250, 74];
  const lead = rect(x0, top, x1 - x0, leadH);
  const order = rect(x0, bottom - orderH, x1 - x0, orderH);
  const cure = rect(x0, order.y - gap - cureH, x1 - x0, cureH);
  const lanesY = top + leadH + gap;
  const lanes = {
    ...rect(x0, lanesY, x1 - x0, cure.y - gap - lanesY),
    ladderW: hand ? 158 : 290,
    ribbonH: hand ? 24 : 36,
    tempH: hand ? 62 : 112,
    axisH: hand ? 16 : 22,
    small: hand,
  };
  const leadSplit = Math.round(lead.w * clamp(hand ? 0.5 : 0.52, g.share + 0.04, 0.64));
  const keyH = hand ? 58 : 84;
  const moreW = hand ? 72 : 222;
  const moreX = order.x + pad;
  const keyX = moreX + moreW + (hand ? 6 : 12);
  const key = rect(keyX, order.y + orderH - pad - keyH, order.x + order.w - pad - keyX, keyH);
  const rowH = hand ? LEAST_TARGET : 60;
  const row = rect(order.x + pad, key.y - (hand ? 4 : 10) - rowH, order.w - 2 * pad, rowH);
  const ackH = hand ? LEAST_TARGET : 72;
  // The temperatures of now give way to an urgent alarm, all of them; pressure, trace and ladder do not.
  const alarmY = lanes.y + lanesBox(lanes).temperature.y - 1;
  return {
    lead,
    pressure: rect(lead.x, top, leadSplit, leadH),
    time: rect(lead.x + leadSplit, top, lead.w - leadSplit, leadH),
    lanes,
    cure,
    order,
    alarm: rect(x0, alarmY, x1 - x0, bottom - alarmY),
    alarmHigh: hand ? rect(x0, alarmY, x1 - x0, bottom - alarmY) : rect(x0, cure.y, x1 - x0, bottom - cure.y),
    text: rect(order.x + pad + 2, order.y + pad, order.w - 2 * pad - 4, key.y - 8 - order.y - pad),
    row,
    plate: row,
    more: rect(moreX, key.y, moreW, keyH),
    key,
    ack: hand ? rect(row.x, row.y - 4 - ackH, row.w, ackH) : rect(keyX, row.y - 4 - ackH, key.w, ackH),
  };
}

function low(g: Ground): Zones {
  const { gap, x0, x1, top, bottom, w, h } = g;
  const pad = 6;
  const roomy = h >= ROOMY_LOW_H;
  // With room for three rows of keys the verb is as large as its width: the trace has no more than the drawer needs.
  const left = roomy ? x0 + LOW_DRAWER_W + LOW_LADDER_W : Math.round(w * 0.49);
  const rightX = left + gap;
  const rightW = x1 - rightX;
  const lead = rect(rightX, top, rightW, 98);
  const cure = rect(rightX, top + lead.h + gap, rightW, 36);
  const orderY = cure.y + cure.h + gap;
  const order = rect(rightX, orderY, rightW, bottom - orderY);
  const split = Math.round(rightW * clamp(0.52, g.share + 0.05, 0.64));
  const key = rect(order.x + 86, order.y + order.h - pad - LEAST_TARGET, rightW - 86 - pad, LEAST_TARGET);
  const ackW = roomy ? 150 : 112;
  const rowW = rightW - 2 * pad - (roomy ? ackW + pad : 0);
  const row = rect(order.x + pad, key.y - 4 - LEAST_TARGET, rowW, LEAST_TARGET);
  const alarm = rect(rightX, cure.y, rightW, bottom - cure.y);
  return {
    lead,
    pressure: rect(rightX, top, split, lead.h),
    time: rect(rightX + split, top, rightW - split, lead.h),
    lanes: {
      ...rect(x0, top, left - x0, bottom - top),
      ladderW: LOW_LADDER_W,
      ribbonH: 22,
      tempH: 58,
      axisH: 15,
      small: true,
    },
    cure,
    order,
    alarm,
    alarmHigh: alarm,
    text: rect(order.x + pad + 2, order.y + 4, rightW - 2 * pad - 4, key.y - 4 - order.y - 4),
    row,
    plate: rect(row.x, row.y, rightW - 2 * pad, row.h),
    more: rect(order.x + pad, key.y, 72, LEAST_TARGET),
    key,
    // Beside the row of answers, never on it: no key is swapped for another.
    ack: roomy
      ? rect(row.x + row.w + pad, row.y, ackW, row.h)
      : rect(order.x + rightW - pad - ackW, alarm.y + pad, ackW, row.y - 6 - alarm.y - pad),
  };
}

/** Height of the strip in the drawing, px; the same on every page. */
const STRIP_H = { wide: 56, tall: 56, hand: 44, low: 36 } as const;

/**
 * The rectangles of a window, in px of the drawing.
 * @param width of the window, CSS px
 * @param share of the lead that the pressure has, 0…1 (SHARE)
 */
export function layoutOf(
  width: number,
  height: number,
  practice: boolean,
  share: number = SHARE.fill,
): Layout {
  const mode: Mode = width < height ? 'tall' : height < LOW_H ? 'low' : 'wide';
  const hand = mode === 'low' || (mode === 'tall' && width < HAND_W);
  const zoom = zoomOf(mode, hand, Math.max(1, width), Math.max(1, height));
  const w = Math.floor(width / zoom);
  const h = Math.floor(height / zoom);
  const gap = hand ? 6 : w >= 1500 ? 10 : 8;
  const frame = practice ? PRACTICE_FRAME : 0;
  const stripH = STRIP_H[mode === 'tall' && hand ? 'hand' : mode];
  const ground: Ground = {
    w,
    h,
    gap,
    x0: gap + frame,
    x1: w - gap - frame,
    top: stripH + gap,
    bottom: h - gap - frame,
    strip: rect(0, 0, w, stripH),
    share,
  };
  const zones = mode === 'wide' ? wide(ground) : mode === 'tall' ? tall(ground, hand) : low(ground);
  const { lanes } = zones;
  return {
    mode,
    small: hand,
    practice,
    zoom,
    w,
    h,
    gap,
    pad: hand ? 8 : 18,
    strip: ground.strip,
    ...zones,
    drawer: rect(lanes.x, lanes.y + lanes.ribbonH, lanes.w - lanes.ladderW, lanes.h - lanes.ribbonH),
  };
}

/** What an alarm of that form takes, or the order without one. */
export const orderRect = (l: Layout, form: 'urgent' | 'high' | 'was' | null): Rect =>
  form === null ? l.order : form === 'urgent' ? l.alarm : l.alarmHigh;

/** What is left of the drawer over an order: nothing that is to be pressed lies under an alarm. */
export function drawerOver(l: Layout, order: Rect): Rect {
  const { drawer, gap } = l;
  const isBeside = order.x >= drawer.x + drawer.w || order.x + order.w <= drawer.x;
  return isBeside ? drawer : { ...drawer, h: Math.min(drawer.h, order.y - gap - drawer.y) };
}
