/**
 * The clock of a worker that is looked at like a film: it goes with the platform's until it is held, and from then on
 * time passes only as it is told. Every call happens at the very moment it was due, in order, so that the same orders
 * give the same moments on a fast and on a slow machine.
 */

export interface Platform {
  nowMs(): number;
  setTimeout(call: () => void, ms: number): number;
  clearTimeout(id: number): void;
  /** Lets messages, streams and promises have their turn. */
  turn(): Promise<void>;
}

export interface Clock {
  readonly held: boolean;
  nowMs(): number;
  /** @returns an id for cancel(); `everyMs` null: once */
  after(ms: number, call: () => void, everyMs?: number | null): number;
  cancel(id: number): void;
  /** Time stands still from now on. */
  hold(): void;
  /**
   * Lets so many milliseconds pass as fast as the work in them can be done.
   * @param stop asked behind each call; where it says yes, time stands still there
   * @returns whether it was stopped
   */
  pass(ms: number, stop?: () => boolean): Promise<boolean>;
}

interface Due {
  readonly id: number;
  atMs: number;
  readonly call: () => void;
  readonly everyMs: number | null;
}

export function createClock(platform: Platform): Clock {
  const pending = new Map<number, Due>();
  let nextId = 1;
  let heldMs: number | null = null;
  /** The platform's timer for the earliest call, while time goes by itself. */
  let armed: number | null = null;
  let passing = false;

  const nowMs = () => heldMs ?? platform.nowMs();

  function earliest(): Due | null {
    let first: Due | null = null;
    for (const due of pending.values()) if (first === null || due.atMs < first.atMs) first = due;
    return first;
  }

  function fire(due: Due): void {
    if (due.everyMs === null) pending.delete(due.id);
    else due.atMs += Math.max(1, due.everyMs);
    due.call();
  }

  function arm(): void {
    if (armed !== null) platform.clearTimeout(armed);
    armed = null;
    const first = heldMs === null ? earliest() : null;
    if (first === null) return;
    armed = platform.setTimeout(
      () => {
        armed = null;
        if (heldMs !== null) return;
        // The platform's timers fire a little early at times; the call is due all the same.
        const toMs = Math.max(platform.nowMs(), first.atMs);
        try {
          for (let due = earliest(); due !== null && due.atMs <= toMs; due = earliest()) fire(due);
        } finally {
          arm();
        }
      },
      Math.max(0, first.atMs - platform.nowMs()),
    );
  }

  return {
    get held() {
      return heldMs !== null;
    },
    nowMs,
    after(ms, call, everyMs = null) {
      const id = nextId++;
      const waitMs = Math.max(0, Number(ms) || 0);
      pending.set(id, { id, atMs: nowMs() + waitMs, call, everyMs });
      // What only asks for the next turn gets it though time stands still: an answer waits for no clock.
      if (heldMs !== null && waitMs === 0 && !passing)
        void platform.turn().then(() => {
          const due = pending.get(id);
          if (due !== undefined && !passing) fire(due);
        });
      arm();
      return id;
    },
    cancel(id) {
      if (pending.delete(id)) arm();
    },
    hold() {
      heldMs ??= platform.nowMs();
      arm();
    },
    async pass(ms, stop) {
      heldMs ??= platform.nowMs();
      arm();
      const toMs = heldMs + ms;
      passing = true;
      try {
        for (let due = earliest(); due !== null && due.atMs <= toMs; due = earliest()) {
          heldMs = Math.max(heldMs, due.atMs);
          fire(due);
          await platform.turn();
          if (stop?.()) return true;
        }
        heldMs = toMs;
        return false;
      } finally {
        passing = false;
      }
    },
  };
}
