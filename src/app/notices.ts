import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** A line that the page says of itself for a while, over whatever page is shown. */
export interface Notice {
  readonly text: string;
  readonly undo: (() => void) | null;
  /** Something failed: it stays longer, and no news of what went well takes its place. */
  readonly fault: boolean;
}

export interface Notices {
  readonly shown: Accessor<Notice | null>;
  say(text: string, undo?: () => void): void;
  fail(text: string): void;
  /** The notice shown was read: the next that waits takes its place. */
  dismiss(): void;
}

const STAYS_MS = { news: 8000, fault: 20_000 } as const;
/** Faults that wait behind the one shown; the same text waits once. More at a time are of one cause. */
const MOST_WAITING = 5;

/**
 * One line at a time. News give way to whatever comes next; a fault keeps its place for its whole time, further faults
 * wait behind it in their order, and the last of the news behind those. Call under an owner: its end ends the timer.
 */
export function createNotices(): Notices {
  const [shown, setShown] = createSignal<Notice | null>(null);
  const faults: Notice[] = [];
  let news: Notice | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const next = () => {
    const first = faults.shift() ?? news;
    if (first === news) news = null;
    show(first);
  };
  const show = (notice: Notice | null) => {
    clearTimeout(timer);
    setShown(notice);
    if (notice !== null) timer = setTimeout(next, STAYS_MS[notice.fault ? 'fault' : 'news']);
  };
  onCleanup(() => clearTimeout(timer));
  return {
    shown,
    say: (text, undo) => {
      const notice = { text, undo: undo ?? null, fault: false };
      if (shown()?.fault === true) news = notice;
      else show(notice);
    },
    fail: (text) => {
      const notice = { text, undo: null, fault: true };
      if (shown()?.fault !== true) {
        // News with a way back wait: they may be the only one.
        if (shown()?.undo != null) news = shown();
        show(notice);
      } else if (shown()?.text === text) show(notice);
      else if (faults.length < MOST_WAITING && !faults.some((f) => f.text === text)) faults.push(notice);
    },
    dismiss: next,
  };
}
