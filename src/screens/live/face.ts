import { type Accessor, createMemo } from 'solid-js';
import type { AlarmView, WatchView } from '../../watch/view.ts';
import { createCalm } from '../../widgets/calm.ts';
import { type Trust, viewTrust } from '../../widgets/trust.ts';
import type { Instruction } from '../../words/orders.ts';
import type { Services } from '../context.ts';
import { isRunLeftOpen, packersLeft } from '../packers-left.ts';
import { type AlarmStage, alarmStage } from './alarm-stage.ts';
import { type LiveChecklist, NO_CHECKLIST } from './checklist.ts';
import { type CueCount, NO_CUE, nextCue } from './cue-count.ts';
import { type Instructed, instructionOf, sayInstruction } from './instruction.ts';
import { type PressureSlot, pressureSlot } from './pressure-slot.ts';
import { BLANK_VIEW, type Scene } from './scene.ts';
import { nextPause, pauseLeftS, type SeatPause } from './seat-pause.ts';
import { type StageKey, stageKey } from './stage-key.ts';
import type { Start } from './start.ts';
import { type TimeSlot, timeSlot } from './time-slot.ts';

/** Everything that the live page shows beside its drawings, made once a moment from what the engine says. */
export interface Face {
  /** The moment as it is read: a few times a second. */
  readonly view: Accessor<WatchView | null>;
  /** The tablet's clock, UTC ms; null: simulated time runs at another pace. */
  readonly nowMs: Accessor<number | null>;
  readonly scene: Accessor<Scene>;
  readonly alarms: Accessor<AlarmStage>;
  readonly key: Accessor<StageKey>;
  readonly instructed: Accessor<Instructed>;
  readonly instruction: Accessor<Instruction>;
  readonly pressure: Accessor<PressureSlot>;
  readonly time: Accessor<TimeSlot>;
}

const alarmSign = (a: AlarmView) => `${a.alarm} ${a.occurrence} ${a.state} ${a.priority}`;

/** What is shown without a wait; numbers alone may wait their turn. */
function signOf(view: WatchView | null): string {
  if (view === null) return '';
  const over =
    view.limits === null || view.bar === null
      ? ''
      : [view.bar >= view.limits.ceilingBar, view.bar > view.limits.ratedBar].join();
  return [
    view.stage,
    view.attempt,
    view.stale,
    view.overBar,
    view.question,
    over,
    ...view.alarms.map(alarmSign),
  ].join('|');
}

/** In practice time runs faster than the clock. */
const clockMs = ({ live, nowMs }: Services): number | null =>
  (live.rig()?.speed ?? 1) === 1 ? nowMs() : null;

export function createFace(app: Services, start: Start, checklist: LiveChecklist = NO_CHECKLIST): Face {
  const { live } = app;
  const trust = createMemo<Trust>(() => viewTrust(live.view(), live.silent()));
  // The count and the pause go by every moment: none is left out.
  const cue = createMemo<CueCount>((before) => {
    const view = live.view();
    if (view === null || live.silent()) return NO_CUE;
    const { closeInS, rateBarPerS } = view.guard;
    return nextCue(before, { ...view, closeInS: closeInS?.value ?? null, rateBarPerS });
  }, NO_CUE);
  const shownCue = createMemo(() => cue(), NO_CUE, {
    equals: (a, b) => a.leftS === b.leftS && a.ofS === b.ofS && a.stopped === b.stopped,
  });
  const pause = createMemo<SeatPause>((before) => {
    const view = live.view();
    return view === null ? null : nextPause(before, view);
  }, null);

  const calm = createCalm(live.view, signOf);
  const scene = createMemo<Scene>(() => {
    const view = calm() ?? BLANK_VIEW;
    return {
      step: start.step(),
      view,
      trust: trust(),
      events: live.events(),
      setup: live.setup(),
      cue: shownCue(),
      pauseLeftS: pauseLeftS(pause(), view.tUs),
      leftOpen: isRunLeftOpen(app),
      leftFull: packersLeft(app).length > 0,
      resumes: start.resumeFirst() !== null,
      soundTested: app.sound.test() !== null,
      checks: checklist.checks(),
    };
  });
  // The engine's list stays the same one while nothing of it changes.
  const list = createMemo(() => calm()?.alarms ?? BLANK_VIEW.alarms);
  const question = createMemo(() => calm()?.question ?? null);
  const alarms = createMemo(() => alarmStage(list(), question()));
  const key = createMemo(() => stageKey(scene(), alarms().block !== null), undefined, {
    equals: (a, b) => a.does === b.does && a.to === b.to && a.look === b.look,
  });
  const instructed = createMemo(() => instructionOf(scene()));
  const instruction = createMemo(() => sayInstruction(instructed(), app.units()), undefined, {
    equals: (a, b) => a.say === b.say && a.besides === b.besides,
  });
  const clock = createMemo(() => ({ nowMs: clockMs(app) }), undefined, {
    equals: (a, b) => a.nowMs === b.nowMs,
  });
  const same = <T>(a: T, b: T) => JSON.stringify(a) === JSON.stringify(b);
  const pressure = createMemo(() => pressureSlot(scene(), app.units()), undefined, { equals: same });
  const time = createMemo(() => timeSlot(scene(), app.units(), clock()), undefined, { equals: same });
  return {
    view: calm,
    nowMs: () => clock().nowMs,
    scene,
    alarms,
    key,
    instructed,
    instruction,
    pressure,
    time,
  };
}
