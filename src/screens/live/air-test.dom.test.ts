import { describe, expect, it } from 'vitest';
import { airTestSpec } from '../../job/air-test.ts';
import type { AirTestView } from '../../watch/view.ts';
import { METRIC } from '../../words/format.ts';
import { answersOf } from './answers.ts';
import { instructionOf, sayInstruction } from './instruction.ts';
import { pressureSlot } from './pressure-slot.ts';
import { stageKey } from './stage-key.ts';
import { sceneOf } from './testing/scene.ts';
import { timeSlot } from './time-slot.ts';

const spec = airTestSpec({ method: 'LC', mm: 150, lengthM: 10, headBar: null })!;
const test = (more: Partial<AirTestView>): AirTestView => ({
  phase: 'idle',
  attempt: 0,
  spec,
  band: { low: 0.0985, high: 0.105 },
  leftS: null,
  fromBar: null,
  dropBar: null,
  uBar: null,
  verdict: null,
  reason: null,
  ...more,
});
const scene = (more: Partial<AirTestView>, bar = 0.1) =>
  sceneOf({ stage: 'air-test', airTest: test(more), bar, uBar: 0.002 });
const order = (more: Partial<AirTestView>, bar?: number) =>
  sayInstruction(instructionOf(scene(more, bar)), METRIC).say;
const slot = (more: Partial<AirTestView>) => timeSlot(scene(more), METRIC, { nowMs: null });

describe('the order of an air test', () => {
  it.each([
    [{}, 0, 'Set and brace both plugs.'],
    [{ phase: 'fill' }, 0.02, 'Let air in slowly to 110.0\u00a0mbar.'],
    [{ phase: 'stabilise' }, 0.11, 'Shut the valve, leave it shut.'],
    [{ phase: 'stabilise' }, 0.09, 'Top up slowly to 110.0\u00a0mbar.'],
    [{ phase: 'adjust' }, 0.11, 'Let out slowly to 100.0\u00a0mbar.'],
    [{ phase: 'adjust' }, 0.09, 'Let air in slowly to 100.0\u00a0mbar.'],
    [{ phase: 'settle' }, 0.1, 'Touch nothing.'],
    [{ phase: 'timing' }, 0.1, 'Touch nothing.'],
    [{ phase: 'vent', verdict: 'passed' }, 0.1, 'Open the vent: all air out.'],
    [{ verdict: 'passed', attempt: 1 }, 0, 'Release the plugs slowly.'],
    [{ verdict: 'failed', attempt: 1 }, 0, 'Find where air goes.'],
    [{ verdict: 'cannot-say', reason: 'near', attempt: 1 }, 0, 'Wait longer, then test again.'],
    [{ reason: 'stopped', attempt: 1 }, 0, 'Test again, or finish.'],
    [{ reason: 'sensor-too-coarse' }, 0, 'Use a finer sensor.'],
  ] as const)('%o at %d bar: %s', (more, bar, say) => {
    expect(order(more, bar)).toBe(say);
  });

  it('its key begins, stops and ends; nobody is led out while air is between the plugs', () => {
    expect(stageKey(scene({}, 0), false)).toMatchObject({ does: 'air-begin', look: 'ready' });
    expect(stageKey(scene({ phase: 'timing' }), false)).toMatchObject({ does: 'air-stop' });
    // A hundredth of a bar reads as nothing elsewhere.
    expect(stageKey(scene({ phase: 'vent', verdict: 'passed' }, 0.01), false)).toMatchObject({
      does: 'end',
      look: 'hold',
    });
    expect(stageKey(scene({ verdict: 'failed', attempt: 1 }, 0), false)).toMatchObject({
      does: 'end',
      look: 'ready',
    });
    expect(stageKey(scene({ reason: 'sensor-too-coarse' }, 0), false).does).toBe('end');
  });

  it('what else can be said: with a probe in the pipe, that it does not hold, once more', () => {
    const codes = (more: Partial<AirTestView>, bar?: number) => {
      const s = scene(more, bar);
      return answersOf(s, instructionOf(s)).map((a) => a.code);
    };
    expect(codes({ phase: 'fill' }, 0.05)).toEqual(['air-not-held']);
    expect(codes({ phase: 'timing' })).toEqual([]);
    expect(codes({ verdict: 'failed', attempt: 1 }, 0)[0]).toBe('air-again');
    expect(codes({ reason: 'over-plugs' }, 0)).toEqual([]);
    const done = sceneOf({ stage: 'done', airTest: test({}), bar: 0 });
    expect(answersOf(done, instructionOf(done)).map((a) => a.code)).toEqual(['air-test']);
  });

  it('the slots lead: the pressure in the small unit, the time that is left, then the verdict with its figures', () => {
    expect(pressureSlot(scene({ phase: 'fill' }, 0.0873), METRIC)).toMatchObject({
      digits: '87.3',
      unit: 'mbar',
    });
    expect(pressureSlot(sceneOf({ stage: 'hold', bar: 1.5 }), METRIC).unit).toBe('bar');
    expect(slot({ phase: 'stabilise', leftS: 250 })).toMatchObject({ code: 'air-stabilise' });
    expect(slot({ phase: 'timing', leftS: 61, dropBar: 0.003, uBar: 0.002 })).toMatchObject({
      big: [
        ['1', 'min'],
        ['01', 's'],
      ],
      sub: 'drop 3.0 ± 2.0, allowed 15.0\u00a0mbar',
    });
    expect(slot({ verdict: 'cannot-say', dropBar: 0.014, uBar: 0.002 })).toMatchObject({
      block: ['CANNOT', 'BE SAID'],
    });
  });
});
