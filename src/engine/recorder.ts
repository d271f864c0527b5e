import type { LogEntry, LogHead } from '../record/log.ts';
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
  /** Makes everything so far durable. False while the store refuses. */
  flush(utcMs: number | null): boolean;
  /** Writes the end mark and closes the file. False: the file stays open-ended and is found at the next start. */
  end(utcMs: number | null, how: RunEnd): boolean;
  /** Arrival of the newest entry that is at rest, µs on the run clock. */
  readonly savedUs: number;
  readonly bytes: number;
  readonly fault: StoreErrorCode | null;
  /** The page that comes next, and the SHA-256 of the last one; null while something waits to be written. */
  position(): { readonly index: number; readonly previous: Uint8Array } | null;
}

export interface RecorderOptions {
  readonly start?: WriterStart;
  /** Told on a change only: a code when the store began to refuse, null when it takes pages again. */
  fault(code: StoreErrorCode | null): void;
}

/** More than this waiting for a store that refuses is given up, oldest last: the tablet's memory is finite too. */
const MOST_WAITING = 64 << 20;

const codeOf = (cause: unknown): StoreErrorCode => (cause instanceof StoreError ? cause.code : 'failed');

export function createRecorder(file: AppendFile, head: LogHead, options: RecorderOptions): Recorder {
  const writer = createPageWriter(head, options.start ?? null);
  let waiting: Uint8Array[] = [];
  let waitingBytes = 0;
  let goodSize = file.size;
  let newestUs = options.start?.lastUs ?? 0;
  let cutUs = newestUs;
  let savedUs = newestUs;
  let fault: StoreErrorCode | null = null;
  // Something could not be put into a page at all: the record has a hole, and says so to its end.
  let holed = false;

  function guarded(add: () => void): void {
    try {
      add();
    } catch {
      // Told at the next flush: here the watch may be in the middle of a step.
      holed = true;
    }
  }

  function say(code: StoreErrorCode | null): void {
    if (code === fault) return;
    fault = code;
    options.fault(code);
  }

  function keep(pages: Uint8Array | null): void {
    if (pages === null) return;
    waiting.push(pages);
    waitingBytes += pages.length;
  }

  /** Appends what waits. After a failed append the file may hold part of it, so it is cut back first. */
  function write(): boolean {
    try {
      if (file.size !== goodSize) file.truncate(goodSize);
      for (const pages of waiting) file.append(pages);
      file.flush();
    } catch (cause) {
      say(codeOf(cause));
      return false;
    }
    goodSize = file.size;
    waiting = [];
    waitingBytes = 0;
    savedUs = cutUs;
    say(holed ? 'failed' : null);
    return true;
  }

  return {
    entry(entry) {
      newestUs = entry.tUs;
      guarded(() => writer.addEntry(entry));
    },
    event(event) {
      guarded(() => writer.addEvent(event));
    },
    flush(utcMs) {
      if (waitingBytes < MOST_WAITING) {
        keep(writer.cut(utcMs));
        cutUs = newestUs;
      }
      if (waiting.length > 0) return write();
      if (holed) say('failed');
      return true;
    },
    end(utcMs, how) {
      keep(writer.finish(utcMs, how));
      cutUs = newestUs;
      const written = write();
      try {
        file.close();
      } catch (cause) {
        say(codeOf(cause));
        return false;
      }
      return written;
    },
    position: () => (waiting.length > 0 || newestUs > cutUs ? null : writer.next),
    get savedUs() {
      return savedUs;
    },
    get bytes() {
      return goodSize;
    },
    get fault() {
      return fault;
    },
  };
}
