/**
 * A run's file, page after page. Damage is named and stepped over; what stands between is read. Nothing here
 * throws on garbage, and no length is believed before it is bounded.
 */
import { type ByteSource, CHUNK, readSome } from './byte-source.ts';
import { SCRIPT_SHA256, type Sha256 } from './hashing.ts';
import { HASH_BYTES, hasMagic, MAX_PAGE_BYTES, neededBytes, type PageHeader } from './layout.ts';
import { type Page, type PageResult, readPage } from './page.ts';
import type { PageDamage, PageFault } from './types.ts';

export type Scanned =
  | { readonly kind: 'page'; readonly page: Page /** SHA-256 of the page. */; readonly hash: Uint8Array }
  | { readonly kind: 'damage'; readonly damage: PageDamage };

export interface ScanOptions {
  /**
   * Compute and compare the chain of hashes (default). Without it a scan takes about half the time and `hash` is
   * empty: enough for showing a trace, not for trusting it.
   */
  readonly chain?: boolean;
  /** The file was scanned before without damage: its pages are not checked a second time. */
  readonly sound?: boolean;
  /** The source begins with any page of the run, and not with its first. */
  readonly inside?: boolean;
  /** What hashes the pages; in plain script by default. */
  readonly sha256?: Sha256;
}

const same = (a: Uint8Array, b: Uint8Array): boolean => {
  for (let i = 0; i < HASH_BYTES; i++) if (a[i] !== b[i]) return false;
  return true;
};

/** Where the next page begins at or after `from`: pages lie on multiples of 8. */
function nextMagic(bytes: Uint8Array, from: number): number | null {
  for (let at = (from + 7) & ~7; at + 8 <= bytes.length; at += 8) if (hasMagic(bytes, at)) return at;
  return null;
}

const NO_HASH = new Uint8Array(0);

/** Takes the file in one piece or in several, and finds the same. */
export class PageScanner {
  private readonly chain: boolean;
  private readonly sound: boolean;
  private readonly sha256: Sha256;
  private expected = 0;
  private inside: boolean;
  /** Hash of the page before, null where it isn't known (damage between). */
  private previous: Uint8Array | null = new Uint8Array(HASH_BYTES);
  private lastUs: number | null = null;
  private runId: string | null = null;
  /** A page that failed, waiting for the next good one to bound it in time. */
  private held: { what: PageFault; page: number; offset: number } | null = null;
  /** No page begins at `offset`; where the next one does is still to be found. */
  private lost: { what: 'crc' | 'form' | 'version' | 'torn'; header: boolean; offset: number } | null = null;

  constructor({ chain = true, sound = false, inside = false, sha256 = SCRIPT_SHA256 }: ScanOptions) {
    this.inside = inside;
    this.chain = chain;
    // Nothing stands before the first page.
    if (!chain) this.previous = NO_HASH;
    this.sound = sound;
    this.sha256 = sha256;
  }

  /** How many bytes of the last piece were dealt with: what is left is to be given again with what follows it. */
  taken = 0;
  private out: Scanned[] = [];
  /** Bytes that were checked as a page's and were none's. Headers can claim pages that overlap without end. */
  inVain = 0;

  /**
   * @param bytes lie at `base` of the file, a multiple of 8
   * @param last nothing comes behind them
   */
  *take(bytes: Uint8Array, base: number, last: boolean): Generator<Scanned, void, undefined> {
    let at: number | null = 0;
    while (at !== null && at < bytes.length) {
      this.taken = at;
      at = this.step(bytes, at, base, last);
      for (const item of this.out) yield item;
      this.out.length = 0;
    }
    if (at !== null) this.taken = at;
    if (last && this.held !== null) yield this.damage(this.held, null);
  }

  /** One page, or what is none. Gives where to go on; null where more has to come. */
  private step(bytes: Uint8Array, at: number, base: number, last: boolean): number | null {
    if (this.lost !== null) {
      const next = nextMagic(bytes, Math.max(at, this.lost.offset + 8 - base));
      if (next !== null || last) {
        this.found(next !== null, false);
        return next ?? bytes.length;
      }
      this.taken = Math.max(at, (bytes.length - 7) & ~7);
      return null;
    }
    // A page is told from a tear by what it says of its own length, and by the page that follows.
    const claimed = neededBytes(bytes, at);
    if (!last && at + claimed + 8 > bytes.length) return null;
    // What was checked in vain is never more than what was passed by, and two pages.
    const result: PageResult =
      this.inVain + claimed > base + at + 2 * MAX_PAGE_BYTES
        ? { ok: false, what: 'form', header: null }
        : readPage(bytes, at, base, this.sound);
    if (result.ok) {
      this.place(result.page);
      return at + result.page.header.pageBytes;
    }
    const { what, header } = result;
    if (header !== null && what !== 'torn') this.inVain += header.pageBytes;
    this.lost = { what, header: header !== null, offset: base + at };
    // A tear is the end of the file; when a whole page follows, it was a lying length field instead.
    const end = header === null ? null : at + header.pageBytes;
    if (end === null || !((last && end === bytes.length) || hasMagic(bytes, end))) return at;
    this.found(true, true);
    return end;
  }

  private damage(
    { what, page, offset }: { what: PageFault; page: number; offset: number },
    toUs: number | null,
    pages = 1,
  ): Scanned {
    return { kind: 'damage', damage: { what, page, pages, offset, fromUs: this.lastUs, toUs } };
  }

  /**
   * The stretch on which no page stands is over.
   * @param next a page begins behind it
   * @param follows just where the length of a page says
   */
  private found(next: boolean, follows: boolean): void {
    const { what, header, offset } = this.lost!;
    this.lost = null;
    this.previous = null;
    // Noise in which no page begins any more is a tear, whatever it looks like at its start.
    const seen = !next && !header ? 'torn' : what;
    if (this.held === null) {
      const lying = what === 'torn' && next;
      this.held = { what: lying ? 'form' : seen, page: this.expected, offset };
      if (follows) this.expected++;
    } else if (follows) {
      this.out.push(this.damage(this.held, null));
      this.held = { what: seen, page: this.expected, offset };
      this.expected++;
    }
  }

  /** Whether a page that is sound in itself belongs where it lies. */
  private place(page: Page): void {
    const { header: h, offset } = page;
    const { out } = this;
    if (this.inside) this.expected = h.index;
    this.inside = false;
    if (this.held !== null) {
      // Garbage between pages need not have replaced one.
      out.push(this.damage(this.held, h.firstUs));
      if (h.index > this.held.page && this.expected <= this.held.page) this.expected = this.held.page + 1;
      this.held = null;
    }
    const misplaced = this.misplaced(h);
    if (misplaced !== null) {
      out.push(this.damage({ what: misplaced, page: h.index, offset }, null));
      this.previous = null;
      return;
    }
    if (h.index > this.expected) {
      const missing = { what: 'missing', page: this.expected, offset } as const;
      out.push(this.damage(missing, h.firstUs, h.index - this.expected));
      this.previous = null;
    }
    const { previous } = this;
    if (previous !== null && previous.length > 0 && !same(previous, h.previous))
      out.push(this.damage({ what: 'chain', page: h.index, offset }, h.lastUs));
    const hash = this.chain ? this.sha256.of(page.bytes) : NO_HASH;
    out.push({ kind: 'page', page, hash });
    this.previous = hash;
    this.runId = h.runId;
    this.expected = h.index + 1;
    this.lastUs = h.lastUs;
  }

  private misplaced(h: PageHeader): 'run' | 'order' | null {
    if (this.runId !== null && h.runId !== this.runId) return 'run';
    if (h.index < this.expected) {
      if (this.previous !== null || h.index !== this.expected - 1) return 'order';
      // The damaged stretch before this page was no page of its own.
      this.expected = h.index;
    }
    // Time on the run clock never descends; a page that does is not of this place.
    return this.lastUs !== null && h.firstUs < this.lastUs ? 'order' : null;
  }
}

/** Pages and damage, in the order of the file. */
export function* scanPages(file: Uint8Array, options: ScanOptions = {}): Generator<Scanned, void, undefined> {
  yield* new PageScanner(options).take(file, 0, true);
}

/**
 * The same for a file that does not stand in memory: what each chunk of it holds. A page is good until the next
 * chunk is asked for.
 * @param tap is given every chunk as it was read
 */
export async function* scanChunks(
  source: ByteSource,
  options: ScanOptions = {},
  tap: (chunk: Uint8Array) => void = () => undefined,
): AsyncGenerator<Iterable<Scanned>, void, undefined> {
  const scanner = new PageScanner(options);
  let room = new Uint8Array(Math.min(2 * CHUNK, source.size));
  // A page that goes over the end of a chunk is kept for the next one.
  let kept = 0;
  for (let at = 0; at < source.size; ) {
    if (kept + CHUNK > room.length) room = wider(room, kept + CHUNK);
    const chunk = await readSome(source, at, room.subarray(kept));
    if (chunk.buffer !== room.buffer) room.set(chunk, kept);
    tap(chunk);
    at += chunk.length;
    const bytes = room.subarray(0, kept + chunk.length);
    yield scanner.take(bytes, at - bytes.length, at === source.size);
    kept = bytes.length - scanner.taken;
    room.copyWithin(0, scanner.taken, bytes.length);
  }
}

function wider(room: Uint8Array, size: number): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(2 * size);
  out.set(room);
  return out;
}
