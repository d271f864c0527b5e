import { describe, expect, it } from 'vitest';
import type { WatchEvent } from '../../watch/events.ts';
import { handsOf, isByHand } from './hands.ts';

const at = (by: string): WatchEvent => ({ tUs: 0, e: 'operator', by });
const stage = (by: 'operator' | 'data'): WatchEvent => ({
  tUs: 1,
  e: 'stage',
  stage: 'hold',
  attempt: 1,
  by,
});
const alarm = (why: 'condition' | 'acknowledged'): WatchEvent => ({
  tUs: 2,
  e: 'alarm',
  alarm: 'ceiling',
  priority: 'urgent',
  occurrence: 1,
  to: why === 'condition' ? 'unacknowledged' : 'acknowledged',
  why,
  values: {},
});

describe('who did what', () => {
  it('a hand carries the initials that stood when it was done; the data carry none', () => {
    const [mixed, seen, said, raised, silenced] = [
      { tUs: 0, e: 'mixed' } as const,
      stage('data'),
      stage('operator'),
      alarm('condition'),
      alarm('acknowledged'),
    ];
    const hands = handsOf([mixed, at('A.B.'), seen, said, at('C.D.'), raised, silenced]);
    expect([...hands]).toEqual([
      [said, 'A.B.'],
      [silenced, 'C.D.'],
    ]);
  });

  it('nobody named any more: what is done then is nobody’s', () => {
    expect(handsOf([at('A.B.'), at(''), stage('operator')]).size).toBe(0);
  });

  it('a question that is asked, or taken back, is no hand', () => {
    const question = (answer: 'loss' | 'held' | null): WatchEvent => ({
      tUs: 3,
      e: 'question',
      question: 'let-down-or-loss',
      answer,
    });
    expect([null, 'held' as const, 'loss' as const].map((a) => isByHand(question(a)))).toEqual([
      false,
      false,
      true,
    ]);
  });
});
