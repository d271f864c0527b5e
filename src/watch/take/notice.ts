import type { EventFrame } from '../../link/frames.ts';
import { isAway } from '../../link/status.ts';
import { airTestBreaks } from '../airtest/airtest.ts';
import type { GapReason } from '../codes.ts';
import { addFault, forgetFaults, limitTaken } from '../device-faults.ts';
import type { WatchEvent } from '../events.ts';
import { holdEnd } from '../hold/hold.ts';
import type { Notice, WatchedFrame } from '../inputs.ts';
import { createPair } from '../pair/pair.ts';
import { createSensorChecks } from '../sensor-checks/sensor-checks.ts';
import { besideLink } from '../signal/beside.ts';
import { createCadence } from '../signal/cadence.ts';
import { jumpSettled } from '../signal/jump.ts';
import { createLate } from '../signal/late.ts';
import { type Signal, signalStray } from '../signal/signal.ts';
import { reboundBreak } from '../stages/rebound.ts';
import type { WatchState } from '../state.ts';
import { supplyDevice } from '../supply/supply.ts';
import { buttonPressed } from './button.ts';
import { breakStretch } from './reading.ts';
import { clockJumped, runLay, sleptThrough, witnessed } from './unseen.ts';

type Emit = (event: WatchEvent) => void;

/** A reported gap shorter than this is a few lost or spoilt lines: the estimators see it by the times, µs. */
const SHORT_GAP_US = 1e6;
/** A fault that came so shortly before the hello of a new start belongs to that start, µs. */
const SAME_START_US = 3e6;
/** Reasons of gaps that are a few lines where they are short; any other breaks the stretch. */
const LINES: Readonly<Record<GapReason, boolean>> = {
  dropped: true,
  garbage: true,
  'out-of-order': true,
  // No sample is missing: what follows is timed by its arrival (sensing/clock.ts).
  'device-clock': true,
  silence: false,
  port: false,
  reset: false,
  clock: false,
  resumed: false,
};

/** Why nothing is read since the device was told of so; null: it is the one that is read. */
const STRANGER: Readonly<Record<Extract<Notice, { n: 'device' }>['what'], Signal['stranger']>> = {
  greeted: null,
  reset: null,
  other: 'other-device',
  rescaled: 'rescaled',
  taken: null,
};

export function takeNotice(w: WatchState, notice: Notice, emit: Emit): void {
  const { tUs } = w;
  const s = w.signal;
  switch (notice.n) {
    case 'link':
      s.link = notice.state;
      if (isAway(notice.state) && s.firstUs !== null) s.portLost = true;
      return;
    case 'device':
      emit({ tUs, e: 'device', what: notice.what, value: notice.bootId });
      // A device without a command to answer yet is none that does not hear.
      w.device.deaf = false;
      s.stranger = STRANGER[notice.what];
      if (notice.what === 'greeted') return;
      if (notice.what === 'reset') s.resetUs = tUs;
      // Its clock is tied anew.
      s.late = createLate();
      // A second opinion was one on the sensor that is gone.
      if (notice.what === 'taken') {
        w.sensorChecks = createSensorChecks();
        jumpSettled(w.jump);
        supplyDevice(w.supply, tUs, emit);
        airTestBreaks(w.airTest, 'device', tUs, emit);
        w.pair = createPair(w.setup);
        s.cadence = createCadence();
      }
      // What the guard of the device said before holds no longer.
      w.device.guard = null;
      w.device.tripped = false;
      forgetFaults(w.device, notice.what === 'reset' ? tUs - SAME_START_US : tUs);
      breakStretch(w, emit);
      return;
    case 'beside-link':
      besideLink(w.beside, notice.state, tUs, emit);
      return;
    case 'beside-device':
      emit({ tUs, e: 'beside', what: notice.what, seconds: null });
      return;
    case 'answers':
      w.device.deaf = !notice.ok;
      return;
    case 'store':
      if (w.store.ok === notice.ok && w.store.code === notice.code) return;
      w.store = { ok: notice.ok, code: notice.code };
      emit({ tUs, e: 'store', ok: notice.ok, code: notice.code });
      return;
    case 'clock-jump':
      s.jumpUs = tUs;
      clockJumped(w, notice.seconds);
      return;
    case 'witness':
      witnessed(w, notice.deviceS, notice.runS);
      return;
    case 'gap':
      s.gapToUs = Math.max(s.gapToUs, notice.toUs);
      if (notice.reason === 'resumed') runLay(w, notice.fromUs, notice.toUs);
      if (notice.reason === 'clock') sleptThrough(w, notice.fromUs, notice.toUs);
      emit({
        tUs,
        e: 'gap',
        reason: notice.reason,
        fromUs: notice.fromUs,
        toUs: notice.toUs,
        lost: notice.lost,
      });
      // One bad line a minute must not keep a leak from being judged, nor a fill from being followed.
      if (!LINES[notice.reason] || notice.toUs - notice.fromUs > SHORT_GAP_US) breakStretch(w, emit);
      return;
    case 'stray':
      signalStray(s, notice.bytes, tUs);
      return;
    case 'rig':
      return;
    case 'end':
      end(w, emit);
      return;
    default:
      notice satisfies never;
  }
}

function end(w: WatchState, emit: Emit): void {
  if (w.hold !== null) {
    holdEnd(w.hold, w.tUs, 'end', false, w.setup, emit);
    w.hold = null;
  }
  reboundBreak(w.rebound, w.tUs, emit);
  airTestBreaks(w.airTest, 'end', w.tUs, emit);
  w.ended = true;
  emit({ tUs: w.tUs, e: 'end' });
}

/** The device's own guard and its button. */
export function takeDevice(w: WatchState, frame: WatchedFrame, emit: Emit): void {
  switch (frame.t) {
    case 'G':
      w.device.guard = frame;
      if (frame.state !== 'unarmed') limitTaken(w.device);
      w.device.tripped = frame.state === 'tripped' || frame.state === 'silenced';
      return;
    case 'E':
      takeEvent(w, frame, emit);
      return;
    default:
      frame satisfies never;
  }
}

function takeEvent(w: WatchState, frame: EventFrame, emit: Emit): void {
  const { tUs } = w;
  switch (frame.code) {
    case 'button':
      emit({ tUs, e: 'device', what: 'button', value: frame.value });
      buttonPressed(w, emit);
      return;
    case 'trip':
      w.device.tripped = true;
      break;
    case 'return':
      w.device.tripped = false;
      break;
    case 'fault':
      addFault(w.device, frame.value ?? 0, tUs);
      break;
    case 'hostlost':
    case 'hostback':
      break;
    case 'boot':
      return; // a start is told by its hello
    default:
      frame.code satisfies never;
      return;
  }
  emit({ tUs, e: 'device', what: frame.code, value: frame.value });
}
