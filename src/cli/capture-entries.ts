import { unwrap32 } from '../link/clock.ts';
import { createDecoder } from '../link/decode.ts';
import type { ChannelFrame, Frame, HelloFrame } from '../link/frames.ts';
import type { DeviceDescription } from '../plan/device.ts';
import type { LogEntry } from '../record/log.ts';
import { fault } from './fault.ts';

export interface CaptureFeed {
  readonly entries: readonly LogEntry[];
  readonly samples: number;
  /** What the device says of itself; null when no complete hello is in the capture. */
  readonly device: DeviceDescription | null;
}

const TICK_US = 100;
/** A clock that went back tells how long the new start was ago only if it was not long. */
const MOST_RESTART_TICKS = 600_000;

/**
 * A bare capture has no arrival times: the device clock is taken as arrival, from the first sample on. After a
 * restart the clock goes on from where it was, by what the new one shows.
 * @throws InputFault when there is no frame of the protocol in it
 */
export function captureEntries(bytes: Uint8Array): CaptureFeed {
  const entries: LogEntry[] = [];
  let tick: number | null = null;
  let us = 0;
  let samples = 0;

  function clock(frame: Frame): void {
    if (!('tick' in frame)) return;
    if (tick === null) {
      // Nothing before the first sample has a time of its own.
      if (frame.t === 'S') tick = frame.tick;
      return;
    }
    const now = unwrap32(tick, frame.tick);
    if (now >= tick) us += (now - tick) * TICK_US;
    else if (isRestart(tick, now)) us += Math.min(frame.tick, MOST_RESTART_TICKS) * TICK_US;
    else return; // an event is stamped when it happened, a little before the sample that left first
    tick = now >= tick ? now : frame.tick;
  }

  createDecoderRun(bytes, {
    frame(frame) {
      if (frame.t === 'K') return;
      clock(frame);
      if (frame.t === 'S') samples++;
      entries.push({ l: 'frame', tUs: us, frame });
    },
    stray(reason, stray) {
      entries.push({ l: 'stray', tUs: us, reason, bytes: stray });
    },
  });
  if (entries.every((e) => e.l !== 'frame')) throw fault((f) => f.noFrame);
  if (samples === 0) throw fault((f) => f.noSample);
  return { entries, samples, device: deviceOf(entries) };
}

/** Events and guard lines are stamped a little before samples that left first; a start anew goes back to near 0. */
function isRestart(before: number, now: number): boolean {
  return before - now > 20_000;
}

function createDecoderRun(
  bytes: Uint8Array,
  sink: Parameters<ReturnType<typeof createDecoder>['push']>[1],
): void {
  const decoder = createDecoder('device');
  decoder.push(bytes, sink);
  decoder.end(sink);
}

/** The first complete hello among the entries. */
export function deviceOf(entries: readonly LogEntry[]): DeviceDescription | null {
  let hello: HelloFrame | null = null;
  let channels: ChannelFrame[] = [];
  for (const e of entries) {
    if (e.l !== 'frame') continue;
    if (e.frame.t === 'H') {
      hello = e.frame;
      channels = [];
    } else if (e.frame.t === 'C' && hello !== null) {
      channels.push(e.frame);
      if (channels.length === hello.channels) return { hello, channels };
    }
  }
  return null;
}
