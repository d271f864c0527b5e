import type { Page } from 'playwright-core';
import { CAP_EM } from '../../src/widgets/fit.ts';
import { clippedTexts } from '../e2e/clipped.ts';
import { pixelsPerMm } from './eye.ts';
import type { Size } from './plan.ts';

/**
 * What an eye would stumble over in a page as it stands, told in words: text that is cut, that runs out of the window or lies on
 * other text, a key that is too small for a glove or for its own label, an urgent order that is too small for three metres.
 */

/** Least side of a key, px: WCAG 2.2, 2.5.5 Target Size (Enhanced). */
const KEY_PX = 44;
/** px that a text may stand over by rounding. */
const ROUNDING_PX = 1.5;
/** Least height of an urgent order's capitals on a tablet that lies, mm. */
const URGENT_MM = 15;
const URGENT_SIZE: Size = { width: 1180, height: 820 };

/** Stages over a trace: a name that has no room there is not shown. Numbers of events are rounder than their box. */
const TRACE_MARKS = '.ribbon span, .note-number';
/** Numbers of events on a trace lead to their lines in a list; the strip's menu is as high as the strip (docs/face.md). */
const LESSER_KEYS = '.note-number, .menu-key';

export async function stumbles(page: Page, size: Size): Promise<string[]> {
  const onLive = (await page.locator('.face').count()) > 0;
  const seen = await page.evaluate(inPage, { KEY_PX, ROUNDING_PX, CAP_EM, TRACE_MARKS, LESSER_KEYS, onLive });
  const cut = await (onLive ? clippedTexts(page) : clippedTexts(page, '.shell-head, main', false));
  const mm = (seen.verbPx * CAP_EM) / pixelsPerMm(size);
  const isUrgentSize = size.width === URGENT_SIZE.width && size.height === URGENT_SIZE.height;
  return [
    ...new Set([
      ...seen.found,
      ...cut.filter((text) => !seen.marks.some((name) => text.includes(name))).map((text) => `cut: ${text}`),
      ...(isUrgentSize && seen.isUrgent && mm < URGENT_MM ? [`urgent order of ${mm.toFixed(1)} mm`] : []),
    ]),
  ];
}

interface Line {
  readonly e: HTMLElement;
  readonly n: Node;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Runs in the page: uses nothing but its argument. */
function inPage(o: {
  KEY_PX: number;
  ROUNDING_PX: number;
  CAP_EM: number;
  TRACE_MARKS: string;
  LESSER_KEYS: string;
  onLive: boolean;
}) {
  const found: string[] = [];
  const named = (e: HTMLElement) =>
    `"${(e.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 60)}" (${e.dataset.testid ?? e.className})`;
  const isSeen = (e: Element) => {
    if (!e.checkVisibility({ opacityProperty: true, visibilityProperty: true })) return false;
    if (e.closest('.visually-hidden, svg, canvas, option, script, style') !== null) return false;
    // Kept for a screen reader alone, by whatever class.
    for (let up: Element | null = e; up !== null; up = up.parentElement)
      if (getComputedStyle(up).overflowX === 'hidden' && up.getBoundingClientRect().width <= 1) return false;
    return true;
  };
  const root = document.documentElement;
  if (root.scrollWidth > innerWidth + 1) {
    const out = [...document.body.querySelectorAll<HTMLElement>('*')].filter(
      (e) => isSeen(e) && e.getBoundingClientRect().right > innerWidth + 1,
    );
    found.push(
      `runs over sideways by ${root.scrollWidth - innerWidth} px: ${out.slice(-1).map(named).join()}`,
    );
  }
  /** Lines of text as their capitals stand, without what scrolls or is clipped out of sight. */
  const linesIn = (of: Element): Line[] =>
    [of, ...of.querySelectorAll('*')].flatMap((e) =>
      !(e instanceof HTMLElement) || ![...e.childNodes].some((n) => n.nodeType === 3) || !isSeen(e)
        ? []
        : [...e.childNodes].flatMap((n) => {
            if (n.nodeType !== 3 || (n.textContent ?? '').trim() === '') return [];
            const room = { left: -1e6, right: 1e6, top: -1e6, bottom: 1e6 };
            for (let up: Element | null = e; up !== null && up !== root; up = up.parentElement) {
              const { overflowX, overflowY } = getComputedStyle(up);
              if (overflowX === 'visible' && overflowY === 'visible') continue;
              const box = up.getBoundingClientRect();
              room.left = Math.max(room.left, box.left);
              room.right = Math.min(room.right, box.right);
              room.top = Math.max(room.top, box.top);
              room.bottom = Math.min(room.bottom, box.bottom);
            }
            const range = document.createRange();
            range.selectNodeContents(n);
            const scale = e.offsetWidth === 0 ? 1 : e.getBoundingClientRect().width / e.offsetWidth;
            const high = Number.parseFloat(getComputedStyle(e).fontSize) * o.CAP_EM * scale;
            return [...range.getClientRects()].flatMap((r) => {
              const middle = (r.top + r.bottom) / 2;
              const line = {
                e,
                n,
                left: Math.max(r.left, room.left),
                right: Math.min(r.right, room.right),
                top: Math.max(middle - high / 2, room.top),
                bottom: Math.min(middle + high / 2, room.bottom),
              };
              return line.right - line.left > 1 && line.bottom - line.top > 1 ? [line] : [];
            });
          }),
    );
  // Keys: as large as a finger in a glove wants them, and their labels in them.
  for (const e of document.querySelectorAll<HTMLElement>('button, a.button, select, [role="tab"]')) {
    if (!isSeen(e) || e.matches(o.LESSER_KEYS)) continue;
    const box = e.getBoundingClientRect();
    if (box.width === 0) continue;
    if (box.height < o.KEY_PX - 0.6) found.push(`key of ${box.height.toFixed(0)} px height: ${named(e)}`);
    if (box.width < o.KEY_PX - 0.6) found.push(`key of ${box.width.toFixed(0)} px width: ${named(e)}`);
    if (e instanceof HTMLSelectElement) {
      const style = getComputedStyle(e);
      const ink = document.createElement('canvas').getContext('2d')!;
      ink.font = style.font;
      const text = e.selectedOptions[0]?.text.trim() ?? '';
      // The browser’s own arrow takes about an em and a half beside the padding.
      const room =
        e.clientWidth -
        1.5 * Number.parseFloat(style.fontSize) -
        Number.parseFloat(style.paddingLeft) -
        Number.parseFloat(style.paddingRight);
      const over = ink.measureText(text).width - room;
      if (over > o.ROUNDING_PX) found.push(`choice cut by ${over.toFixed(0)} px: "${text}"`);
      continue;
    }
    for (const line of linesIn(e)) {
      const wider = Math.max(line.right - box.right, box.left - line.left);
      const higher = Math.max(line.bottom - box.bottom, box.top - line.top);
      if (wider > o.ROUNDING_PX)
        found.push(`label wider than its key by ${wider.toFixed(0)} px: ${named(e)}`);
      if (higher > o.ROUNDING_PX)
        found.push(`label higher than its key by ${higher.toFixed(0)} px: ${named(e)}`);
    }
  }
  // Lines that lie on each other. Over the trace a drawer may stand, and an order over what it takes the place of; on other pages
  // what stays in sight while the rest moves under it.
  const layerOf = (e: Element): Element | null => {
    if (o.onLive) return e.closest('.drawer, .order, .zone, .shell-head');
    for (let up: Element | null = e; up !== null; up = up.parentElement)
      if (['sticky', 'fixed'].includes(getComputedStyle(up).position)) return up;
    return null;
  };
  const lines = linesIn(document.body)
    .map((line) => ({ ...line, layer: layerOf(line.e) }))
    .sort((a, b) => a.top - b.top);
  lines.forEach((a, i) => {
    for (const b of lines.slice(i + 1)) {
      if (b.top > a.bottom) break;
      if (a.n === b.n || a.layer !== b.layer) continue;
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 2 && high > 2) found.push(`on each other: ${named(a.e)} and ${named(b.e)}`);
    }
  });
  const verb = document.querySelector('.order .verb, .verb');
  const face = document.querySelector<HTMLElement>('.face');
  const scale = face === null ? 1 : face.getBoundingClientRect().width / face.offsetWidth;
  return {
    found,
    marks: [...document.querySelectorAll(o.TRACE_MARKS)].map((e) => `"${e.textContent?.trim()}"`),
    verbPx: verb === null ? 0 : Number.parseFloat(getComputedStyle(verb).fontSize) * scale,
    isUrgent:
      verb !== null && document.querySelector('[data-testid="zone-order"][data-form="urgent"]') !== null,
  };
}
