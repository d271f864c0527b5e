import { describe, expect, it } from 'vitest';
import type { SupplyView } from '../../watch/view.ts';
import { answersOf } from './answers.ts';
import { instructionOf } from './instruction.ts';
import { doubtsOf } from './stage-doubts.ts';
import { stageKey } from './stage-key.ts';
import { sceneOf } from './testing/scene.ts';

const supplyOf = (more: Partial<SupplyView>): SupplyView => ({
  phase: 'open',
  leftS: null,
  asked: false,
  lockUpBar: null,
  verdict: null,
  creepMbarPerMin: null,
  ceilingInS: null,
  proved: false,
  ...more,
});
const STOOD = { value: 1.82, low: 1.81, high: 1.83 };

/** What the order zone says, offers and does while the supply is proved. */
function order(more: Partial<SupplyView>, bar = 0) {
  const scene = sceneOf({ bar, supply: supplyOf(more) });
  const said = instructionOf(scene);
  const { does, look } = stageKey(scene, false);
  return [said.code, answersOf(scene, said).map((a) => a.code), does, look];
}

describe('the order zone while the supply is proved', () => {
  it('leads from phase to phase, and its key is the next word of the hand', () => {
    expect(order({})).toEqual(['supply-open', [], 'supply-stop', 'outlined']);
    expect(order({ phase: 'rising' }, 1)).toEqual(['supply-rises', [], 'supply-stop', 'outlined']);
    expect(order({ phase: 'watching', leftS: 12, lockUpBar: STOOD }, 1.82)[0]).toBe('supply-watch');
    expect(order({ phase: 'shut', lockUpBar: STOOD }, 1.82)).toEqual([
      'supply-shut',
      [],
      'supply-shut',
      'ready',
    ]);
    expect(order({ phase: 'tight', leftS: 4, lockUpBar: STOOD }, 1.82)[0]).toBe('supply-tight');
  });

  it('asks whether the packer is on the hose before anything else, and never offers that the valve is shut meanwhile', () => {
    expect(order({ phase: 'shut', asked: true, verdict: 'over-ceiling' }, 1.2)).toEqual([
      'supply-asked',
      ['packer-on', 'slow-valve'],
      'supply-stop',
      'outlined',
    ]);
  });

  it('over the ceiling says what to do with the regulator, in every phase with air in the line', () => {
    for (const phase of ['watching', 'shut', 'tight'] as const)
      expect(order({ phase, verdict: 'over-ceiling', lockUpBar: STOOD }, 2.6)[0]).toBe('supply-lower');
  });

  it('holds the key to the seat while the line is not empty, and where the supply stood over the ceiling or crept', () => {
    expect(order({ phase: 'vent', proved: true, verdict: 'stands', lockUpBar: STOOD }, 1.8)).toEqual([
      'supply-vent',
      [],
      'stage',
      'hold',
    ]);
    for (const [verdict, doubt] of [
      ['over-ceiling', 'supply-over-ceiling'],
      ['creeps', 'supply-creeps'],
    ] as const) {
      const { view } = sceneOf({ supply: supplyOf({ phase: null, proved: true, verdict }) });
      expect(doubtsOf('seat', view, { witnessHard: false, reboundStayed: false })).toEqual([doubt]);
    }
    const { view } = sceneOf({ supply: supplyOf({ phase: null, proved: true, verdict: 'stands' }) });
    expect(doubtsOf('seat', view, { witnessHard: false, reboundStayed: false })).toEqual([]);
  });
});
