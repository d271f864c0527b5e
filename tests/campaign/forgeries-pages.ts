/** Changes in a run's pages by somebody who knows their form: CRCs and, where it is asked, the chain made anew. */
import { createHash } from 'node:crypto';
import { crc32c } from '../../src/record/crc.ts';
import { scanPages } from '../../src/record/page-scanner.ts';
import { changeBytes, changeField, type Draw } from './forgeries-draw.ts';

/** Offset and size of the header's fields, as docs/record.md has them. */
const FIELDS: readonly (readonly [number, 1 | 2 | 4 | 8])[] = [
  [8, 2],
  [10, 2],
  [12, 4],
  [16, 4],
  [20, 2],
  [22, 1],
  [23, 1],
  [24, 8],
  [32, 8],
  [40, 8],
  [48, 4],
  [52, 4],
  [56, 4],
  [60, 4],
  [64, 4],
  [68, 4],
  [72, 4],
  [76, 4],
  [112, 4],
  [116, 4],
];
const PREVIOUS_AT = 80;

const join = (pages: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(pages));

function sealPage(page: Uint8Array): void {
  if (page.length < 8) return;
  const at = page.length - 4;
  new DataView(page.buffer, page.byteOffset).setUint32(at, crc32c(page, 0, at), true);
}

/** Digits and letters of the text sections exchanged for others of the same length. */
function changeText(d: Draw, page: Uint8Array): void {
  const places: number[] = [];
  for (let i = 120; i < page.length - 4; i++) if (page[i]! >= 0x30 && page[i]! <= 0x7d) places.push(i);
  for (let n = d.below(4); n >= 0 && places.length > 0; n--) {
    const at = d.pick(places);
    page[at] = d.pick([...'0123456789eE-+."[]{},:anx'].map((c) => c.charCodeAt(0)));
  }
}

/** CRCs and chain of pages whose bytes were changed without changing their lengths. */
export function mendPages(bytes: Uint8Array): Uint8Array {
  const pages: Uint8Array[] = [];
  for (let at = 0; at + PREVIOUS_AT < bytes.length; ) {
    const size = new DataView(bytes.buffer, bytes.byteOffset).getUint32(at + 12, true);
    pages.push(bytes.slice(at, at + size));
    at += size;
  }
  for (const [i, page] of pages.entries()) {
    if (i > 0)
      page.set(
        createHash('sha256')
          .update(pages[i - 1]!)
          .digest(),
        PREVIOUS_AT,
      );
    sealPage(page);
  }
  return join(pages);
}

/** @param chain each page after a changed one names its hash, so that all is sound in itself */
export function changePages(d: Draw, whole: Uint8Array, chain: boolean): Uint8Array {
  const pages: Uint8Array[] = [];
  for (const item of scanPages(whole, { chain: false }))
    if (item.kind === 'page') pages.push(item.page.bytes.slice());
  if (pages.length === 0) return changeBytes(d, whole);
  const at = d.below(pages.length);
  const page = pages[at]!;
  switch (d.below(7)) {
    case 0:
    case 1: {
      const [offset, size] = d.pick(FIELDS);
      changeField(d, new DataView(page.buffer), offset, size);
      break;
    }
    case 2:
      changeText(d, page);
      break;
    case 3:
      pages[at] = changeBytes(d, page);
      break;
    case 4:
      pages.splice(at, 1);
      break;
    case 5:
      pages.splice(d.below(pages.length), 0, page.slice());
      break;
    default: {
      const other = d.below(pages.length);
      [pages[at], pages[other]] = [pages[other]!, page];
    }
  }
  const changed = pages[at];
  if (changed !== undefined) sealPage(changed);
  if (chain)
    for (let i = 1; i < pages.length; i++) {
      const [before, next] = [pages[i - 1]!, pages[i]!];
      if (next.length < PREVIOUS_AT + 36) continue;
      next.set(createHash('sha256').update(before).digest(), PREVIOUS_AT);
      if (d.below(2) === 0) new DataView(next.buffer, next.byteOffset).setUint32(16, i, true);
      sealPage(next);
    }
  return join(pages);
}
