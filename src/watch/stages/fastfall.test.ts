import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const hold = () =>
  new Script()
    .say({ c: 'stage', to: 'inflate' })
    .flow(30, (t) => t * 0.06)
    .say({ c: 'stage', to: 'hold' })
    .flow(60, 1.8);
const fall = (tau: number) => (t: number) => 1.8 * Math.exp(-t / tau);

describe('a fast fall in a hold', () => {
  it('asks once: let-down or loss?', () => {
    const s = hold();
    const from = s.tS;
    s.flow(30, fall(8));
    expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(1.5);
    expect(s.of('question')).toMatchObject([{ answer: null }]);
    expect(viewOf(s.w, s.tS * 1e6).question).toBe('let-down-or-loss');
  });

  it('at a high pressure is a twentieth of it: what a large packer loses in a breath is none', () => {
    const high = (fallBar: number) =>
      new Script({ setup: setupOf({ limits: null }) })
        .flow(30, (t) => t * 0.12)
        .say({ c: 'stage', to: 'hold' })
        .flow(30, 3.6)
        .flow(10, (t) => 3.6 - fallBar * Math.min(1, t / 2));
    expect(high(0.12).of('question')).toEqual([]);
    expect(high(0.22).of('question')[0]).toMatchObject({ answer: null });
  });

  it('is not what a line does that equalises with the packer after the valve was closed', () => {
    const s = new Script().flow(30, (t) => t * 0.06).say({ c: 'stage', to: 'hold' });
    s.flow(60, (t) => 1.6 + 0.2 * Math.exp(-t / 0.8));
    expect(s.of('question')).toEqual([]);
    expect(s.heard()).not.toContain('fast-fall');
  });

  it('a question is taken back when the pressure has held after all, and stays when it is gone', () => {
    const held = hold();
    held.flow(20, (t) => (t < 1 ? 1.8 - 0.12 * t : 1.68));
    expect(held.of('question').map((q) => q.answer)).toEqual([null, 'held']);
    expect(viewOf(held.w, held.tS * 1e6).question).toBeNull();
    const gone = hold();
    gone.flow(30, fall(2));
    expect(viewOf(gone.w, gone.tS * 1e6).question).toBe('let-down-or-loss');
  });

  it('the answer let-down ends the hold; the alarm goes with it', () => {
    const s = hold()
      .flow(3, fall(8))
      .say({ c: 'answer', question: 'let-down-or-loss', answer: 'let-down' })
      .flow(10, 0.5);
    expect(s.of('question').map((e) => e.answer)).toEqual([null, 'let-down']);
    expect(s.of('stage').at(-1)).toMatchObject({ stage: 'let-down', by: 'operator' });
    expect(viewOf(s.w, s.tS * 1e6).question).toBeNull();
    expect(viewOf(s.w, s.tS * 1e6).alarms.filter((a) => a.state === 'unacknowledged')).toEqual([]);
  });

  it('the answer loss keeps the hold and the alarm, and does not ask again for the same fall', () => {
    const s = hold().flow(3, fall(8)).say({ c: 'answer', question: 'let-down-or-loss', answer: 'loss' });
    s.flow(20, (t) => fall(8)(t + 3));
    expect(s.of('question').map((e) => e.answer)).toEqual([null, 'loss']);
    expect(viewOf(s.w, s.tS * 1e6).stage).toBe('hold');
    expect(s.heard()).toContain('fast-fall');
  });

  it('saying the stage is an answer, too; an answer without a question is none', () => {
    const s = hold().flow(3, fall(8)).say({ c: 'stage', to: 'let-down' });
    expect(s.of('question').map((e) => e.answer)).toEqual([null, 'let-down']);
    s.say({ c: 'answer', question: 'let-down-or-loss', answer: 'loss' });
    expect(s.of('question')).toHaveLength(2);
  });

  it('announced let-downs, leaks and noise ask nothing', () => {
    expect(hold().say({ c: 'stage', to: 'let-down' }).flow(60, fall(8)).of('question')).toEqual([]);
    expect(
      hold()
        .flow(600, (t) => 1.8 - 0.0005 * t, { sd: 0.004 })
        .of('question'),
    ).toEqual([]);
  });

  it('one fall, one alarm: the floor speaks only when the fall is over', () => {
    const s = hold()
      .flow(4, (t) => Math.max(0.3, 1.8 - t))
      .flow(3, 0.3);
    expect(s.heard()).toEqual(['fast-fall']);
    expect(s.flow(20, 0.3).heard()).toEqual(['fast-fall', 'below-floor']);
  });

  it('while a loss is suspected no alarm of the hold is one that a top-up helps', () => {
    const values = (s: Script, alarm: string) =>
      viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === alarm)?.values;
    const said = (answer: 'loss' | null) => {
      const s = hold().flow(3, fall(2));
      if (answer !== null) s.say({ c: 'answer', question: 'let-down-or-loss', answer });
      return s.flow(20, (t) => fall(2)(t + 3));
    };
    for (const answer of ['loss', null] as const)
      expect(values(said(answer), 'below-floor')).toMatchObject({ cause: 'fast-fall' });
    // The coupling is found and the packer filled again: from there on a small leak is a leak.
    const again = said('loss')
      .flow(20, (t) => Math.min(1.75, 0.1 * t))
      .flow(30, 1.75);
    expect(viewOf(again.w, again.tS * 1e6).airNotWanted).toBeNull();
  });
});
