import type { Instructed } from './instruction.ts';
import { reboundOf, type Scene } from './scene.ts';
import { witnessOf } from './stage-doubts.ts';

/** What the crew can say besides the stage key: one or two keys in the row under the instruction. */

export type AnswerCode =
  | 'sound'
  | 'warm'
  | 'mixed'
  | 'hard'
  | 'not-hard'
  | 'vent-open'
  | 'slow-valve'
  | 'packer-on';

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
const ASKS: readonly string[] = ['met', 'warm', 'soft', 'early', 'hard', 'cure-not-judged'];

export function answersOf(scene: Scene, { stage, code }: Instructed): readonly Answer[] {
  const { view, setup, step } = scene;
  if (step !== 'running') return [];
  const unmixed = setup !== null && setup.resin !== null && view.mixedUs === null;
  switch (stage) {
    case 'prepare': {
      if (code === 'supply-asked') return [answer('packer-on'), answer('slow-valve', { hold: true })];
      // A proof leads by itself; what stands under its order is not to be hidden by a key.
      if (view.supply !== null && view.supply.phase !== null) return [];
      const first = code === 'warm' || code === 'sound' ? [answer(code)] : [];
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
    default:
      return [];
  }
}
