import { type Accessor, createSignal } from 'solid-js';

/** A fault of the page itself: something could not be drawn, so what is on the screen may be old. */
export interface PageFault {
  readonly detail: string;
  /** Somebody has seen it: the mark stands on, its sound does not. */
  readonly seen: boolean;
}

export interface PageFaults {
  readonly now: Accessor<PageFault | null>;
  /** The same fault again changes nothing: a moment comes thirty times a second. */
  tell(error: unknown): void;
  /** The press that says it was seen. */
  see(): void;
  /** What failed is drawn anew. */
  clear(): void;
}

/** @param onSound whether the fault sounds, called on each change; before anything is drawn of it */
export function createPageFaults(onSound: (sounding: boolean) => void): PageFaults {
  const [now, setNow] = createSignal<PageFault | null>(null);
  let told: PageFault | null = null;
  const set = (next: PageFault | null) => {
    told = next;
    onSound(next !== null && !next.seen);
    setNow(next);
  };
  return {
    now,
    tell(error) {
      const detail = String((error as { message?: unknown } | null)?.message ?? error);
      if (told?.detail !== detail) set({ detail, seen: false });
    },
    see() {
      if (told !== null) set({ ...told, seen: true });
    },
    clear: () => set(null),
  };
}
