import type { Timers } from '../link/timers.ts';

/**
 * Timers whose seconds can be made shorter: practice on the simulated rig may run a long hold at ten times the
 * pace, and then everything that counts time there (link, guard, record) must count the simulated time.
 *
 * A real device's clock is the platform's: a call that comes late is late. Simulated time passes in steps
 * instead: each call happens at the very moment it was due, in order, and the clock stands still until it has been made.
 * A busy machine then makes practice slower, never silent: at 60 times the pace a call that is 30 ms late would
 * otherwise be a device that said nothing for two seconds.
 */
export interface ScaledTimers extends Timers {
  readonly speed: number;
  /** `simulated`: time passes in steps, as above. */
  setSpeed(speed: number, simulated: boolean): void;
}

/** Simulated work goes on this long at a stretch, real ms, before messages from the page get their turn. */
const STRETCH_MS = 20;
/** Simulated time that is further behind than this, real ms, is not caught up with: the pace sinks instead. */
const MOST_DEBT_MS = 100;
/** Links of a chain of promises that settle between two simulated calls: a command and its answer need a few. */
const PROMISE_TURNS = 10;

export function createScaledTimers(base: Timers): ScaledTimers {
  let speed = 1;
  let simulated = false;
  let fromUs = base.nowUs();
  let atUs = fromUs;
  /** Where simulated time has come to. */
  let steppedUs = atUs;
  const pending = new Map<number, { readonly dueUs: number; readonly call: () => void }>();
  let key = 0;
  /** The one timer of the platform that stands for the earliest call. */
  let armed: { readonly id: number; readonly cancel: () => void } | null = null;
  let stretching = false;
  let settings = 0;

  const paceUs = (): number => atUs + (base.nowUs() - fromUs) * speed;

  function earliest(): readonly [id: number, dueUs: number, call: () => void] | null {
    let found: readonly [number, number, () => void] | null = null;
    for (const [id, timer] of pending)
      if (found === null || timer.dueUs < found[1]) found = [id, timer.dueUs, timer.call];
    return found;
  }

  function nowUs(): number {
    if (!simulated) return paceUs();
    if (!stretching) {
      const dueUs = earliest()?.[1] ?? Number.POSITIVE_INFINITY;
      steppedUs = Math.max(steppedUs, Math.min(paceUs(), dueUs));
    }
    return steppedUs;
  }

  function anchor(us: number): void {
    atUs = us;
    fromUs = base.nowUs();
  }

  function disarm(): void {
    armed?.cancel();
    armed = null;
  }

  function arm(): void {
    if (stretching) return;
    const next = earliest();
    if (next?.[0] === armed?.id) return;
    disarm();
    if (next === null) return;
    const [id, dueUs] = next;
    const cancel = base.after(Math.max(0, (dueUs - paceUs()) / 1000 / speed), () => {
      armed = null;
      // The platform's timers fire a little early at times; the call is due all the same.
      const toUs = Math.max(paceUs(), dueUs);
      if (simulated) void stretch(toUs);
      else callAll(toUs);
    });
    armed = { id, cancel };
  }

  /** Real time: every call that is due, at once. */
  function callAll(toUs: number): void {
    const mine = settings;
    try {
      for (let next = earliest(); next !== null && next[1] <= toUs && mine === settings; next = earliest()) {
        pending.delete(next[0]);
        next[2]();
      }
    } finally {
      arm();
    }
  }

  async function stretch(toUs: number): Promise<void> {
    const mine = settings;
    const beganUs = base.nowUs();
    stretching = true;
    try {
      for (let next = earliest(); next !== null && next[1] <= toUs; next = earliest()) {
        if (mine !== settings || base.nowUs() - beganUs > STRETCH_MS * 1000) break;
        pending.delete(next[0]);
        steppedUs = Math.max(steppedUs, next[1]);
        next[2]();
        // What waits for this call goes on before the next one, as it would in real time.
        for (let i = 0; i < PROMISE_TURNS; i++) await null;
      }
    } finally {
      stretching = false;
      if (simulated && paceUs() - steppedUs > MOST_DEBT_MS * 1000 * speed) anchor(steppedUs);
      arm();
    }
  }

  return {
    nowUs,
    after(ms, call) {
      const id = key++;
      pending.set(id, { dueUs: nowUs() + Math.max(0, ms) * 1000, call });
      arm();
      return () => {
        if (pending.delete(id)) arm();
      };
    },
    get speed() {
      return speed;
    },
    setSpeed(next, inSteps) {
      if (!(next > 0)) throw new RangeError(`speed ${next} is not above 0`);
      const us = nowUs();
      anchor(us);
      steppedUs = us;
      speed = next;
      simulated = inSteps;
      settings++;
      disarm();
      arm();
    },
  };
}
