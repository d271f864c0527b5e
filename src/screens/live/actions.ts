import { createSignal } from 'solid-js';
import { MOST_SAID } from '../../job/check-answers.ts';
import { MOST_TEXT } from '../../job/entries.ts';
import type { Stage } from '../../watch/codes.ts';
import type { Command } from '../../watch/inputs.ts';
import type { AlarmView } from '../../watch/view.ts';
import { doubtFigures, reasonWith } from '../../words/doubts.ts';
import { FACE, REASONS, SEEN_EMPTY } from '../../words/face.ts';
import { JOBS } from '../../words/jobs.ts';
import { LIVE } from '../../words/live.ts';
import { STAGE_KEY } from '../../words/orders.ts';
import type { Services } from '../context.ts';
import type { AnswerCode } from './answers.ts';
import { type LiveChecklist, NO_CHECKLIST } from './checklist.ts';
import { safetyAfter, safetyBefore } from './checks-open.ts';
import type { More } from './more/state.ts';
import { endsUnseen } from './pressed.ts';
import { BLANK_VIEW } from './scene.ts';
import { doubtsOf, type StageDoubt, seenOf } from './stage-doubts.ts';
import type { StageKey } from './stage-key.ts';
import type { Start } from './start.ts';

/** What the keys of the live page do. */
export interface Actions {
  press(key: StageKey): void;
  /** To another stage; where something speaks against it the drawer asks why. */
  go(to: Stage): void;
  /** The same in spite of what speaks against it: its figures are recorded with the reason. */
  sendInSpite(to: Stage, doubts: readonly StageDoubt[], reason: string): void;
  answer(code: AnswerCode): void;
  command(command: Command): void;
  acknowledge(alarms: readonly AlarmView[]): void;
  /** Words on the stage key. */
  label(key: StageKey): string;
}

export function createActions(
  app: Services,
  start: Start,
  more: More,
  checklist: LiveChecklist = NO_CHECKLIST,
): Actions {
  const { live } = app;
  const [sending, setSending] = createSignal(false);
  const command = (c: Command) => void app.ask({ q: 'command', command: c }).catch(app.fail);

  const send = (to: Stage, reason?: string) => {
    if (sending()) return;
    setSending(true);
    void app
      .ask({ q: 'command', command: reason === undefined ? { c: 'stage', to } : { c: 'stage', to, reason } })
      .catch(app.fail)
      .finally(() => setSending(false));
    if (more.tab() !== 'rig') more.close();
  };
  /** With what spoke against it: the figures are those of the press. */
  const sendInSpite = (to: Stage, doubts: readonly StageDoubt[], reason: string) => {
    const at = live.view() ?? BLANK_VIEW;
    const figures = doubts.map((d) => doubtFigures(d, at, app.units())).filter((f) => f !== null);
    const whole = reasonWith(reason, figures);
    const passed = safetyBefore(checklist.checks(), at.stage, to);
    // What was gone on without is told item by item: for that alone the step needs no reason of its own.
    const isListAlone = doubts.every((d) => d === 'checklist-open');
    void (async () => {
      for (const item of passed) await checklist.say(item, 'passed', reason.slice(0, MOST_SAID));
      send(to, isListAlone ? undefined : whole.length > MOST_TEXT ? reason : whole);
    })().catch(app.fail);
    const run = live.run();
    if (to === 'done' && reason === REASONS.done[SEEN_EMPTY] && run !== null)
      void app.ask({ q: 'packer-empty', runId: run.runId, title: '' }).catch(app.fail);
  };
  const go = (to: Stage) => {
    const view = live.view();
    if (view === null) return;
    const doubts = doubtsOf(to, view, seenOf(live.events(), view.attempt), checklist.checks());
    if (doubts.length === 0) send(to);
    else more.ask({ to, doubts, items: safetyBefore(checklist.checks(), view.stage, to).map((i) => i.id) });
  };

  const connect = () => {
    const run = start.resumeFirst();
    if (run !== null) {
      if (run.practice) start.connectRig(run);
      else start.connectDevice(false, run);
    } else if (app.serial.supported) start.connectDevice(false);
    else start.connectRig();
  };
  const begin = () => {
    const run = start.resumeFirst();
    const job = start.job();
    if (run !== null) start.resume(run);
    else if (job != null && start.refusals(job).length === 0) start.useJob(job);
    else if (start.practice() && job == null) start.usePractice();
    else more.open('start', 'start-panel');
  };
  const beginLabel = () => {
    const job = start.job();
    if (start.resumeFirst() !== null) return JOBS.resume;
    if (job != null && start.refusals(job).length === 0) return FACE.useSheet;
    return start.practice() && job == null ? LIVE.packerPractice : FACE.choosePacker;
  };

  return {
    command,
    sendInSpite,
    go,
    acknowledge: (alarms) => {
      for (const { alarm, occurrence } of alarms) command({ c: 'acknowledge', alarm, occurrence });
    },
    press: ({ does, to }) => {
      if (start.busy()) return;
      switch (does) {
        case 'connect':
          return connect();
        case 'packer':
          return begin();
        case 'zero':
          return start.zero();
        case 'skip-zero':
          return start.skipZero();
        case 'compare': {
          // With the value typed the key is pressed for what it says; before that it leads to the field.
          const bar = more.gaugeBar();
          return more.tab() === 'checks' && bar !== null
            ? command({ c: 'gauge', bar })
            : more.open('checks', 'gauge-value');
        }
        case 'supply-shut':
          return command({ c: 'supply', said: 'valve-shut' });
        case 'supply-stop':
          return command({ c: 'supply', said: 'stop' });
        case 'air-begin':
          return command({ c: 'air-test', said: 'begin' });
        case 'air-stop':
          return command({ c: 'air-test', said: 'stop' });
        case 'test':
          return command({ c: 'vent', open: false });
        case 'end':
          if (safetyAfter(checklist.checks()).length > 0) return more.open('checklist');
          // What speaks against it is said, and a reason asked for.
          return endsUnseen(live.view()) ? more.open('run', 'end-run') : start.endRun(null);
        case 'stages':
          return more.open('stages');
        case 'stage':
          if (to !== null) go(to);
          return;
        default:
          return does satisfies never;
      }
    },
    answer: (code) => {
      switch (code) {
        case 'checklist':
          return more.open('checklist');
        case 'sound':
          return more.open('checks', 'sound-play');
        case 'warm':
          return more.open('checks');
        case 'mixed':
          return command({ c: 'mixed' });
        case 'hard':
        case 'not-hard':
          // The sentence over the keys asks for the sample that was kept at pipe temperature.
          return command({ c: 'witness', hard: code === 'hard', atPipeTemperature: true });
        case 'vent-open':
          return command({ c: 'vent', open: true });
        case 'air-test':
          return go('air-test');
        case 'air-again-probed':
          return command({ c: 'air-test', said: 'begin-probed' });
        case 'air-again':
          return command({ c: 'air-test', said: 'begin' });
        case 'air-not-held':
          return command({ c: 'air-test', said: 'not-held' });
        case 'slow-valve':
        case 'packer-on':
          return command({ c: 'supply', said: code });
        default:
          return code satisfies never;
      }
    },
    label: ({ does, to }) => {
      switch (does) {
        case 'connect':
          return start.resumeFirst() !== null
            ? JOBS.connectResume
            : app.serial.supported
              ? STAGE_KEY.connect
              : LIVE.connectRig;
        case 'packer':
          return beginLabel();
        case 'skip-zero':
          return LIVE.zeroSkip;
        case 'stage':
          return to === null ? '' : STAGE_KEY[to];
        case 'stages':
          return STAGE_KEY.demoted;
        default:
          return STAGE_KEY[does];
      }
    },
  };
}
