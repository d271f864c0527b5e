export interface SilenceClock {
  nowMs(): number;
  /** Calls again and again; the returned function ends it. */
  every(ms: number, call: () => void): () => void;
}

/**
 * Notices on the page that the engine fell silent: it beats twice a second, whatever else it does. A picture comes ten
 * times a second at least; from the first one on only a picture is a sign of life, since a number that stands still
 * under living beats is as old as one of an engine that is gone.
 */
export interface SilenceWatch {
  readonly silent: boolean;
  /** Something came; `picture`: it was a moment. */
  heard(picture: boolean): void;
  /** It is known to have fallen silent. */
  fell(): void;
  /** Calls on each change; the returned function ends it. */
  on(listener: (silent: boolean) => void): () => void;
  end(): void;
}

const SILENT_MS = 2000;
const LOOK_MS = 500;

const pageClock: SilenceClock = {
  nowMs: () => performance.now(),
  every(ms, call) {
    const id = setInterval(call, ms);
    return () => clearInterval(id);
  },
};

export function createSilenceWatch(clock: SilenceClock = pageClock): SilenceWatch {
  const listeners = new Set<(silent: boolean) => void>();
  let heardMs = clock.nowMs();
  let silent = false;
  let pictured = false;

  function set(next: boolean): void {
    if (next === silent) return;
    silent = next;
    for (const listener of listeners) listener(next);
  }

  const end = clock.every(LOOK_MS, () => {
    if (clock.nowMs() - heardMs > SILENT_MS) set(true);
  });

  return {
    get silent() {
      return silent;
    },
    heard(picture) {
      if (picture) pictured = true;
      else if (pictured) return;
      heardMs = clock.nowMs();
      set(false);
    },
    fell: () => set(true),
    on(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    end,
  };
}
