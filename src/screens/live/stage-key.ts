import type { Stage } from '../../watch/codes.ts';
import { isUntestable } from './air-test-doubt.ts';
import { nextStage, readsLow } from './next-stage.ts';
import { COUPLED_BAR } from './pressed.ts';
import { atZero, gaugeOf, inWorkingBand, isStill, reboundOf, type Scene } from './scene.ts';
import { doubtsOf, seenOf } from './stage-doubts.ts';

/** What the one key of the order zone does now, and how it looks. Its place never changes. */

export type KeyDoes =
  | 'connect' // connects the device, or takes the run up that was left open
  | 'packer' // begins the run with what the start panel offers first
  | 'zero'
  | 'skip-zero'
  | 'compare' // opens the dial gauge's field
  | 'supply-shut' // the supply valve is said shut: does the line hold?
  | 'supply-stop' // the proof of the supply is broken off
  | 'test' // the vent is said shut: the rebound test
  | 'stage'
  | 'air-begin'
  | 'air-stop'
  | 'end'
  | 'stages'; // demoted: leads to all stages

/**
 * `ready`: its turn has come, black; `outlined`: not yet, a press is taken all the same; `hold`: something speaks against
 * it, or an alarm has the stage: to be pressed and held.
 */
export type KeyLook = 'ready' | 'outlined' | 'hold';

export interface StageKey {
  readonly does: KeyDoes;
  readonly to: Stage | null;
  readonly look: KeyLook;
}

const key = (does: KeyDoes, look: KeyLook, to: Stage | null = null): StageKey => ({ does, to, look });

/** A change of stage: held where something speaks against it. */
function step(scene: Scene, to: Stage, hasTurn: boolean): StageKey {
  const { view, events, checks } = scene;
  const doubts = doubtsOf(to, view, seenOf(events, view.attempt), checks);
  return key('stage', doubts.length > 0 ? 'hold' : hasTurn ? 'ready' : 'outlined', to);
}

/** Begun, stopped, and ended: a test that has said something, or cannot be made, leads out. */
function airTestKey(scene: Scene): StageKey {
  const { airTest } = scene.view;
  if (airTest === null) return key('end', atZero(scene) ? 'ready' : 'hold');
  // A hundredth of a bar may be left, and still throws a plug.
  if (airTest.phase === 'vent') return key('end', 'hold');
  if (airTest.phase !== 'idle') return key('air-stop', 'outlined');
  return airTest.verdict === null && !isUntestable(airTest.reason)
    ? key('air-begin', 'ready')
    : key('end', atZero(scene) ? 'ready' : 'hold');
}

function letDownKey(scene: Scene): StageKey {
  const { view } = scene;
  if (view.rebound !== null) return step(scene, 'done', false);
  const last = reboundOf(scene);
  if (last?.what === 'stayed' && atZero(scene)) return step(scene, 'done', true);
  if (readsLow(view)) return key('test', 'hold');
  return key('test', atZero(scene) ? 'ready' : 'outlined');
}

/**
 * @param taken an alarm has the order zone: then the key is held whatever it does
 */
export function stageKey(scene: Scene, taken: boolean): StageKey {
  const own = ownKey(scene);
  if (!taken) return own;
  return scene.step === 'running' ? key('stages', 'hold') : { ...own, look: 'hold' };
}

function ownKey(scene: Scene): StageKey {
  const { view } = scene;
  if (scene.step === 'connect') return key('connect', 'ready');
  if (scene.step === 'packer') return key('packer', 'ready');
  if (scene.step === 'zero')
    return (view.bar ?? 0) > COUPLED_BAR ? key('skip-zero', 'hold') : key('zero', 'ready');
  const seatPlanned = view.limits?.seatBar != null;
  switch (view.stage) {
    case 'prepare':
      if (view.supply !== null && view.supply.phase !== null && view.supply.phase !== 'vent')
        return view.supply.phase === 'shut' && !view.supply.asked
          ? key('supply-shut', 'ready')
          : key('supply-stop', 'outlined');
      return step(scene, nextStage('prepare', seatPlanned) ?? 'inflate', true);
    case 'seat':
      // Until its time is over the pause's key stays outlined.
      return gaugeOf(scene) === null
        ? key('compare', scene.pauseLeftS === 0 ? 'ready' : 'outlined')
        : step(scene, 'inflate', true);
    case 'inflate':
      return step(scene, 'hold', inWorkingBand(scene) && isStill(scene));
    case 'hold':
      return step(scene, 'let-down', true);
    case 'let-down':
      return letDownKey(scene);
    case 'abandoned':
      return step(
        scene,
        atZero(scene) ? (nextStage('abandoned', seatPlanned) ?? 'inflate') : 'let-down',
        atZero(scene),
      );
    case 'done':
      return key('end', atZero(scene) ? 'ready' : 'hold');
    case 'air-test':
      return airTestKey(scene);
    default:
      return view.stage satisfies never;
  }
}
