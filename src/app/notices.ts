import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** A line that the page says of itself for a while, over whatever page is shown. */
export interface Notice {
  readonly text: string;
  readonly undo: (() => void) | null;
}

export interface Notices {
  /** What went as it should: the last of it, for some seconds. */
  readonly news: Accessor<Notice | null>;
  /** What failed: one at a time, each for its whole time or until it was read. News never take its place. */
  readonly fault: Accessor<Notice | null>;
  say(text: string, undo?: () => void): void;
  fail(text: string): void;
  dismissNews(): void;
  /** The fault shown was read: the next that waits takes its place. */
  dismissFault(): void;
}

const NEWS_MS = 8000;
const FAULT_MS = 20_000;
/** Faults that wait behind the one shown; the same text waits once. More at a time are of one cause. */
const MOST_WAITING = 5;

function createPlace(staysMs: number, next: () => Notice | null) {
  const [shown, setShown] = createSignal<Notice | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));
  const show = (notice: Notice | null) => {
    clearTimeout(timer);
    setShown(notice);
    if (notice !== null) timer = setTimeout(() => show(next()), staysMs);
  };
  return { shown, show };
}

/** Call under an owner: its end ends the timers. */
export function createNotices(): Notices {
  const waiting: Notice[] = [];
  const nextFault = () => waiting.shift() ?? null;
  const news = createPlace(NEWS_MS, () => null);
  const fault = createPlace(FAULT_MS, nextFault);
  return {
    news: news.shown,
    fault: fault.shown,
    say: (text, undo) => news.show({ text, undo: undo ?? null }),
    fail: (text) => {
      const notice = { text, undo: null };
      const now = fault.shown();
      if (now === null || now.text === text) fault.show(notice);
      else if (waiting.length < MOST_WAITING && !waiting.some((f) => f.text === text)) waiting.push(notice);
    },
    dismissNews: () => news.show(null),
    dismissFault: () => fault.show(nextFault()),
  };
}
