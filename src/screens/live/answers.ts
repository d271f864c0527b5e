import { isUntestable } from './air-test-doubt.ts';
import { dueItems } from './checks-open.ts';
import type { Instructed } from './instruction.ts';
import { atZero, mixingWaits, reboundOf, type Scene } from './scene.ts';
import { witnessOf } from './stage-doubts.ts';

/** What the crew can say besides the stage key: one or two keys in the row under the instruction. */

export type AnswerCode =
  | 'checklist'
  | 'sound'
  | 'warm'
  | 'mixed'
  | 'hard'
  | 'not-hard'
  | 'vent-open'
  | 'slow-valve'
  | 'packer-on'
  | 'air-test'
  | 'air-again'
  | 'air-again-probed'
  | 'air-not-held';

export interface Answer {
  readonly code: AnswerCode;
  /** It was said already. */
  readonly said: boolean;
  /** To be held: it goes against advice, or against what was said before. */
  readonly hold: boolean;
}

const answer = (code: AnswerCode, more: Partial<Answer> = {}): Answer => ({
  code,
  said: false,
  hold: false,
  ...more,
});

/** Sentences of the hold that ask for the sample. */
const ASKS: readonly string[] = ['met', 'warm', 'soft', 'early', 'doubted', 'hard', 'cure-not-judged'];

export function answersOf(scene: Scene, { stage, code }: Instructed): readonly Answer[] {
  const { view, setup, step } = scene;
  if (step !== 'running') return [];
  const unmixed = mixingWaits(scene);
  const due = dueItems(scene.checks, view.stage, unmixed).length > 0;
  switch (stage) {
    case 'prepare': {
      if (code === 'supply-asked') return [answer('packer-on'), answer('slow-valve', { hold: true })];
      // A proof leads by itself; what stands under its order is not to be hidden by a key.
      if (view.supply !== null && view.supply.phase !== null) return [];
      // One key leads to what is asked: where the order has one of its own the list is under More.
      const first =
        code === 'warm' || code === 'sound' || code === 'checklist'
          ? [answer(code)]
          : due && unmixed
            ? [answer('checklist')]
            : [];
      return unmixed ? [...first, answer('mixed')] : first;
    }
    case 'seat':
      return unmixed ? [answer('mixed')] : [];
    case 'abandoned': {
      // Another sleeve has another resin; with the same one it is not pressed.
      const isNew = view.mixedUs !== null && view.mixedUs >= view.stageSinceUs;
      return setup === null || setup.resin === null || isNew ? [] : [answer('mixed', { hold: true })];
    }
    case 'hold': {
      if (!ASKS.includes(code)) return [];
      const noted = witnessOf(scene.events, view.attempt);
      // What was noted of a sample that was kept warm says nothing against another answer.
      const before = noted === null || !noted.atPipeTemperature ? null : noted.hard;
      return [
        answer('hard', { said: before === true, hold: before === false }),
        answer('not-hard', { said: before === false, hold: before === true }),
      ];
    }
    case 'let-down': {
      const last = reboundOf(scene)?.what;
      const tested = view.rebound !== null || last === 'came-back' || last === 'broken-off';
      return tested ? [answer('vent-open')] : [];
    }
    case 'done': {
      // Planned and not made yet: it is the next thing once the packer is out. How to pull stands under the order, and is not to be
      // hidden by a key: what of the checklist waits is told on More.
      const made = scene.events.some((e) => e.e === 'air-test' && e.what === 'judged');
      return view.airTest === null || made || !atZero(scene) ? [] : [answer('air-test')];
    }
    case 'air-test': {
      const { airTest } = view;
      if (airTest === null) return [];
      const probe = view.temps.some((t) => t.place === 'air' && t.c !== null);
      // What stands under that order is of plugs, and is not to be hidden by a key: the probe is said under Checks.
      if (code === 'begin') return [];
      if (airTest.phase === 'idle' && !isUntestable(airTest.reason))
        return [answer('air-again'), ...(probe ? [answer('air-again-probed')] : [])];
      const before = airTest.phase === 'fill' || airTest.phase === 'stabilise';
      return before || airTest.phase === 'adjust' ? [answer('air-not-held', { hold: true })] : [];
    }
    default:
      return [];
  }
}
