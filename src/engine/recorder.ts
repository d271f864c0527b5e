import { type KeptState, type LogEntry, type LogHead, STATE_SAMPLES } from '../record/log.ts';
import { type AppendFile, StoreError, type StoreErrorCode } from '../record/stores/store.ts';
import type { RunEnd } from '../record/types.ts';
import { createPageWriter, type WriterStart } from '../record/writer.ts';
import type { WatchEvent } from '../watch/events.ts';

/**
 * Keeps a run on disk while it happens: pages are cut, appended and flushed every half second, so that at most
 * that much is at risk. A fault never stops the guard: pages that could not be written wait in memory and are
 * tried again with each flush, and the fault is told to the run as a notice, which is an alarm.
 */
export interface Recorder {
  entry(entry: LogEntry): void;
  event(event: WatchEvent): void;
  /** Makes everything so far durable. False while something waits: the store refuses, or there is more than a flush may take. */
  flush(utcMs: number | null): boolean;
  /** Adds the end mark. True: all is at rest and the file closed; else it stays open, and flush() goes on trying. */
  end(utcMs: number | null, how: RunEnd): boolean;
  /** Leaves what waits unwritten and closes the file: open-ended, it is found at the next start. */
  abandon(): void;
  /** Bytes from a place on, at most so many: of what is at rest, and behind it of what waits. Empty at the end. */
  read(from: number, length: number): Uint8Array;
  /** Arrival of the newest entry that is at rest, µs on the run clock. */
  readonly savedUs: number;
  readonly bytes: number;
  /** Bytes of pages that wait to be written. */
  readonly waitingBytes: number;
  readonly fault: StoreErrorCode | null;
  /** The last try to write failed. */
  readonly refusing: boolean;
  /** The page that comes next, and the SHA-256 of the last one; null while something waits to be written. */
  position(): { readonly index: number; readonly previous: Uint8Array } | null;
}

export interface RecorderOptions {
  /** Bytes kept for a store that refuses. */
  readonly mostWaiting?: number;
  readonly start?: WriterStart;
  /**
   * The run as it stands once an entry was judged, which is before it is handed over here; null: none is kept. Left out: no
   * states are kept in the pages.
   * @param samples that came up to now
   */
  state?(samples: number): KeptState | null;
  /** Told on a change only: a code when the store began to refuse, null when it takes pages again. */
  fault(code: StoreErrorCode | null): void;
}

/**
 * More than this is not kept for a store that refuses, for the tablet's memory is finite too: nine hours at 50 Hz. What
 * comes then has no place in the record, which says so to its end.
 */
const MOST_WAITING = 64 << 20;
/** Written in one flush of what has gathered: the guard waits for it. */
const MOST_A_FLUSH = 2 << 20;

interface Waiting {
  readonly pages: Uint8Array;
  /** Arrival of the newest entry in them, µs. */
  readonly lastUs: number;
}

const NOTHING = new Uint8Array(0);

const codeOf = (cause: unknown): StoreErrorCode => (cause instanceof StoreError ? cause.code : 'failed');

export function createRecorder(file: AppendFile, head: LogHead, options: RecorderOptions): Recorder {
  const mostWaiting = options.mostWaiting ?? MOST_WAITING;
  const writer = createPageWriter(head, options.start ?? null);
  let waiting: Waiting[] = [];
  let waitingBytes = 0;
  let goodSize = file.size;
  let newestUs = options.start?.lastUs ?? 0;
  let cutUs = newestUs;
  let savedUs = newestUs;
  let fault: StoreErrorCode | null = null;
  // Something could not be put into a page at all: the record has a hole, and says so to its end.
  let holed = false;
  let refusing = false;
  let samples = options.start?.samples ?? 0;
  let state: 'open' | 'ending' | 'closed' = 'open';

  function guarded(add: () => void): void {
    // What a store says of the end itself has no place behind it.
    if (state !== 'open') return;
    try {
      if (waitingBytes >= mostWaiting) holed = true;
      else add();
    } catch {
      // Told at the next flush: here the watch may be in the middle of a step.
      holed = true;
    }
  }

  /** A place to begin at for whoever judges the pages again: nothing is lost where it can't be kept. */
  function keepState(tUs: number): void {
    // What the hole swallowed was judged, and is not in the pages: no state follows from them any more.
    if (state !== 'open' || holed || waitingBytes >= mostWaiting) return;
    try {
      const kept = options.state?.(samples) ?? null;
      if (kept !== null) writer.addEntry({ l: 'state', tUs, state: kept });
    } catch {
      // Longer than a line may be, or no JSON: the pages are judged from the state before.
    }
  }

  function say(code: StoreErrorCode | null): void {
    if (code === fault) return;
    fault = code;
    options.fault(code);
  }

  function keep(pages: Uint8Array | null): void {
    cutUs = newestUs;
    if (pages === null) return;
    waiting.push({ pages, lastUs: newestUs });
    waitingBytes += pages.length;
  }

  /** Appends of what waits as much as goes, and asks the disk to keep it. True: nothing waits any more. */
  function write(most: number): boolean {
    let failed: unknown = null;
    let n = 0;
    let bytes = 0;
    try {
      // After a failed append the file may hold part of it.
      if (file.size !== goodSize) file.truncate(goodSize);
      for (const { pages } of waiting) {
        if (n > 0 && bytes + pages.length > most) break;
        file.append(pages);
        n++;
        bytes += pages.length;
      }
    } catch (cause) {
      failed = cause ?? new Error('refused');
    }
    try {
      if (n > 0) {
        if (file.size !== goodSize + bytes) file.truncate(goodSize + bytes);
        file.flush();
        goodSize += bytes;
        waitingBytes -= bytes;
        savedUs = waiting[n - 1]!.lastUs;
        waiting = waiting.slice(n);
      }
    } catch (cause) {
      failed ??= cause ?? new Error('refused');
    }
    refusing = failed !== null;
    if (failed !== null) {
      say(codeOf(failed));
      return false;
    }
    if (waiting.length > 0) return false;
    say(holed ? 'failed' : null);
    return true;
  }

  function close(): boolean {
    state = 'closed';
    try {
      file.close();
      return true;
    } catch (cause) {
      say(codeOf(cause));
      return false;
    }
  }

  return {
    entry(entry) {
      newestUs = entry.tUs;
      guarded(() => writer.addEntry(entry));
      if (entry.l === 'frame' && entry.frame.t === 'S' && ++samples % STATE_SAMPLES === 0)
        keepState(entry.tUs);
    },
    event(event) {
      guarded(() => writer.addEvent(event));
    },
    flush(utcMs) {
      if (state === 'closed') return true;
      if (state === 'open' && waitingBytes < mostWaiting) keep(writer.cut(utcMs));
      if (waiting.length > 0) {
        const all = write(MOST_A_FLUSH);
        if (all && state === 'ending') close();
        return all;
      }
      if (holed) say('failed');
      return true;
    },
    end(utcMs, how) {
      keep(writer.finish(utcMs, how));
      state = 'ending';
      return write(Number.POSITIVE_INFINITY) && close();
    },
    abandon() {
      waiting = [];
      waitingBytes = 0;
      close();
    },
    read(from, length) {
      if (from < goodSize) return file.read(from, Math.min(length, goodSize - from));
      let at = goodSize;
      for (const { pages } of waiting) {
        if (from < at + pages.length) return pages.slice(from - at, from - at + length);
        at += pages.length;
      }
      return NOTHING;
    },
    position: () => (waiting.length > 0 || newestUs > cutUs ? null : writer.next),
    get savedUs() {
      return savedUs;
    },
    get bytes() {
      return goodSize;
    },
    get waitingBytes() {
      return waitingBytes;
    },
    get refusing() {
      return refusing;
    },
    get fault() {
      return fault;
    },
  };
}
