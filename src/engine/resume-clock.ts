import { unwrap32 } from '../link/clock.ts';
import type { LogEntry } from '../record/log.ts';
import type { Run } from './core.ts';

/** What was heard of the device since the program runs again, on a clock of its own. */
export interface HeardSince {
  readonly run: Pick<Run, 'hello' | 'foreign' | 'track'>;
  readonly entries: readonly LogEntry[];
  readonly nowUs: number;
}

const TICK_US = 100;

/**
 * The run clock now, for a run taken up again, by the clock of the device that went on meanwhile: the same one, not
 * started anew since, its counter on from the run's last sample. null: there is none to ask.
 */
export function deviceClockNow(run: Pick<Run, 'hello' | 'track'>, since: HeardSince): number | null {
  const there = run.hello;
  const here = since.run.hello;
  const { seq, tick, lastUs } = run.track;
  if (there === null || here === null || since.run.foreign || seq === null || lastUs === null) return null;
  if (there.deviceId !== here.deviceId || there.bootId !== here.bootId) return null;
  const heard = newestTick(since);
  if (heard === null) return null;
  const ticks = unwrap32(tick, heard.tick) - tick;
  // Behind the run's last sample: another start under the same number, or a clock that lies.
  if (ticks <= 0) return null;
  return lastUs + ticks * TICK_US + (since.nowUs - heard.tUs);
}

function newestTick({ run, entries }: HeardSince): { readonly tick: number; readonly tUs: number } | null {
  if (run.track.seq !== null && run.track.lastUs !== null)
    return { tick: run.track.tick % 0x1_0000_0000, tUs: run.track.lastUs };
  const hello = entries.findLast((e) => e.l === 'frame' && e.frame.t === 'H');
  return hello?.l === 'frame' && hello.frame.t === 'H' ? { tick: hello.frame.uptime, tUs: hello.tUs } : null;
}

/**
 * The run clock at which a run goes on. A wall clock may have been set, and a device's may jump: where both speak the
 * lesser one holds, for cure must not be credited with time that did not pass.
 * @param deviceUs by the device's clock; null: it cannot tell
 * @param wallUs by the wall clock; null: what it says cannot be
 */
export function clockOnResume(deviceUs: number | null, wallUs: number | null, lastUs: number): number {
  if (deviceUs === null) return wallUs ?? lastUs;
  return wallUs === null ? deviceUs : Math.min(deviceUs, wallUs);
}
