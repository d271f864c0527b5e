import type { Page } from 'playwright-core';

/** px that a text may stand over by rounding. */
const ROUNDING_PX = 1.5;

/** Where the live page's words stand. */
const LIVE = '[data-testid="zone-strip"], .zone, .order';

/**
 * Texts that are cut, of the live page unless other zones are told: beyond the edge of what clips them, at its right or left by their own letters, at its top
 * or bottom by their lines. What scrolls by itself (drawer, tabs) and what is only for a screen reader is left out.
 * @param atEdge the edge of a zone itself is one that cuts
 */
export async function clippedTexts(page: Page, zones = LIVE, atEdge = true): Promise<string[]> {
  return page.evaluate(
    ({ rounding, zones, atEdge }) => {
      const clips = (e: Element) => ['hidden', 'clip'].includes(getComputedStyle(e).overflowX);
      const found = new Set<string>();
      const hidden = (e: Element): boolean => {
        for (let up: Element | null = e; up !== null; up = up.parentElement)
          if (clips(up) && up.clientWidth <= 1) return true;
        return false;
      };
      const holds = (e: Element) => {
        for (const n of e.childNodes) if (n.nodeType === 3 && n.textContent?.trim()) return true;
        return false;
      };
      for (const zone of document.querySelectorAll(zones)) {
        for (const e of zone.querySelectorAll<HTMLElement>('*')) {
          if (!holds(e) || e.closest('.visually-hidden, svg, canvas, .zone-lanes') !== null) continue;
          if (!e.checkVisibility() || (e.offsetParent === null && getComputedStyle(e).position !== 'fixed'))
            continue;
          // Kept for a screen reader alone, by whatever class.
          if (hidden(e)) continue;
          const range = document.createRange();
          range.selectNodeContents(e);
          const letters = range.getBoundingClientRect();
          let block: HTMLElement = e;
          while (getComputedStyle(block).display === 'inline' && block.parentElement !== null)
            block = block.parentElement;
          const lines = block.getBoundingClientRect();
          const say = (side: string, by: number) =>
            found.add(
              `${zone.className.split(' ').slice(0, 2).join('.')} "${e.textContent?.trim()}" ${side} by ${by.toFixed(0)} px`,
            );
          if (block.scrollWidth > block.clientWidth + rounding)
            say('wider', block.scrollWidth - block.clientWidth);
          if (clips(block) && block.scrollHeight > block.clientHeight + rounding)
            say('higher', block.scrollHeight - block.clientHeight);
          for (
            let over: Element | null = e;
            over !== null;
            over = over === zone ? null : over.parentElement
          ) {
            if (over === zone ? !atEdge : !clips(over)) continue;
            const room = over.getBoundingClientRect();
            if (letters.right > room.right + rounding) say('right', letters.right - room.right);
            if (letters.left < room.left - rounding) say('left', room.left - letters.left);
            if (over === block) continue;
            if (lines.right > room.right + rounding) say('right', lines.right - room.right);
            if (lines.bottom > room.bottom + rounding) say('bottom', lines.bottom - room.bottom);
            if (lines.top < room.top - rounding) say('top', room.top - lines.top);
          }
        }
      }
      return [...found];
    },
    { rounding: ROUNDING_PX, zones, atEdge },
  );
}
