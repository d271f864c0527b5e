import type { Timers } from '../link/timers.ts';

/**
 * Timers whose seconds can be made shorter: practice on the simulated rig may run a long hold at ten times the
 * pace, and then everything that counts time there (link, guard, record) must count the simulated time.
 */
export interface ScaledTimers extends Timers {
  readonly speed: number;
  setSpeed(speed: number): void;
}

export function createScaledTimers(base: Timers): ScaledTimers {
  let speed = 1;
  let fromUs = base.nowUs();
  let atUs = fromUs;
  const pending = new Map<number, { dueUs: number; call: () => void; cancel: () => void }>();
  let key = 0;

  const nowUs = (): number => atUs + (base.nowUs() - fromUs) * speed;

  function arm(id: number, dueUs: number, call: () => void): void {
    const ms = Math.max(0, (dueUs - nowUs()) / 1000 / speed);
    const cancel = base.after(ms, () => {
      pending.delete(id);
      call();
    });
    pending.set(id, { dueUs, call, cancel });
  }

  return {
    nowUs,
    after(ms, call) {
      const id = key++;
      arm(id, nowUs() + ms * 1000, call);
      return () => {
        pending.get(id)?.cancel();
        pending.delete(id);
      };
    },
    get speed() {
      return speed;
    },
    setSpeed(next) {
      if (!(next > 0)) throw new RangeError(`speed ${next} is not above 0`);
      atUs = nowUs();
      fromUs = base.nowUs();
      speed = next;
      for (const [id, timer] of [...pending]) {
        timer.cancel();
        arm(id, timer.dueUs, timer.call);
      }
    },
  };
}
