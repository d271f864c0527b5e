import { describe, expect, it } from 'vitest';
import { PRESSURE_CHANNEL } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import { alarmOf, both, setupWith } from '../testing/two-pressures.ts';

// An outlet's sensor beside one at the hose. Limits: rated 2.5 bar, working 1.8, ceiling 2.48.

const stood = (standsAt: number, line: 'closed' | 'supplied-relieving' = 'closed'): Script => {
  const s = new Script({ setup: setupWith('outlet-pressure', { line }) });
  both(s, 3, 0, 0);
  both(s, 1, 0, (t) => standsAt * t);
  return both(s, 6, 0, standsAt);
};
const filled = (standsAt: number, line?: 'supplied-relieving'): Script => {
  const s = stood(standsAt, line).acknowledge().say({ c: 'stage', to: 'inflate' });
  both(s, 18, (t) => 0.1 * t, Math.max(1.75, standsAt - 0.1));
  s.say({ c: 'stage', to: 'hold' });
  return both(s, 10, 1.8, standsAt);
};

describe('an outlet where the packer’s sensor is lost', () => {
  it('says nothing of a packer that is shut off from it', () => {
    const hold = both(filled(5.5), 10, null, 5.5);
    expect(alarmOf(hold, 'pressure-lost')?.state).toBe('unacknowledged');
    expect(hold.heard()).not.toContain('over-rated');
    const prepare = both(stood(2.6), 10, null, 2.6);
    expect(prepare.heard()).toEqual(['supply-over', 'pressure-lost']);
  });

  it('that had stood under the ceiling and is over it now counts where air may flow', () => {
    const fill = both(stood(1.82).say({ c: 'stage', to: 'inflate' }), 4, (t) => 0.1 * t, 1.7);
    both(fill, 3, null, 1.7);
    expect(fill.heard()).toEqual(['pressure-lost']);
    both(fill, 3, null, 3);
    expect(alarmOf(fill, 'over-rated')?.state).toBe('unacknowledged');
    const open = both(filled(1.82, 'supplied-relieving'), 3, null, 1.82);
    expect(both(open, 5, null, 2.7).heard()).toContain('over-rated');
  });

  it('under the limit takes no alarm back that the packer had raised', () => {
    const s = both(filled(1.82, 'supplied-relieving'), 10, (t) => 1.8 + 0.09 * t, 1.82);
    expect(alarmOf(s, 'over-rated')).toBeDefined();
    s.silence(3);
    both(s, 20, null, 1.82);
    expect(alarmOf(s, 'over-rated')?.state).toBe('unacknowledged');
  });
});

describe('an outlet’s sensor', () => {
  it('that is driven past its end is a supply that is too high, at once', () => {
    const s = both(stood(1.82).say({ c: 'stage', to: 'inflate' }), 4, (t) => 0.1 * t, 1.7);
    const from = s.tS;
    both(s, 3, (t) => 0.4 + 0.1 * t, null, 'outlet-pressure', {
      second: { flags: FLAG.fault | FLAG.outOfRange },
    });
    expect(s.at('supply-over', 'unacknowledged') - from).toBeLessThan(0.25);
    expect(alarmOf(s, 'supply-over')).toMatchObject({ priority: 'urgent', values: { secondBar: 4 } });
    expect(s.heard()).not.toContain('second-lost');
  });

  it('that stands still by itself is told, and is no witness of how the supply stands', () => {
    const s = both(stood(1.82), 4, 0, 1.82, 'outlet-pressure', { second: { flags: FLAG.stuck } });
    expect(alarmOf(s, 'second-lost')?.values).toMatchObject({ cause: 'outlet-pressure' });
    expect(viewOf(s.w, Math.round(s.tS * 1e6)).second).toMatchObject({ bar: null, lost: true });
    both(s, 5, 0, 1.82);
    expect(s.states('second-lost').at(-1)).toBe('returned');
  });

  it('that goes on up after it was acknowledged is asked again', () => {
    const s = stood(2.6).acknowledge();
    both(s, 20, 0, 2.7);
    expect(alarmOf(s, 'supply-over')?.state).toBe('acknowledged');
    both(s, 3, 0, 3.4);
    expect(alarmOf(s, 'supply-over')?.state).toBe('unacknowledged');
  });

  it('that fills by itself before anybody lets air in is the packer’s, swapped', () => {
    // The supply was opened before the run began: nobody saw the line empty.
    const s = both(new Script({ setup: setupWith() }), 2, 1.8, 0);
    expect(alarmOf(s, 'sensors-differ')?.values).toMatchObject({ cause: 'swapped' });
  });

  it('that is put in its place while the packer fills leaves nothing that could be lost', () => {
    const s = both(new Script({ setup: setupWith() }), 12, 1.8, 0).say({ c: 'stage', to: 'inflate' });
    both(s, 12, 1.75, (t) => 0.05 * t).say({ c: 'gauge', bar: 0.6 });
    const channels = [
      { ...PRESSURE_CHANNEL, index: 1 },
      { ...PRESSURE_CHANNEL, role: 'outlet-pressure' as const },
    ];
    s.setup({ ...setupWith(), number: 2, channels });
    both(s, 12, (t) => 0.6 + 0.05 * t, 1.75);
    expect(s.heard()).not.toContain('fast-fall');
    // The dial gauge was compared with the other one.
    expect(s.states('gauge-differs').at(-1)).toBe('returned');
  });

  it('that is empty while the packer fills the line again after the let-down is not swapped', () => {
    const s = filled(1.82).say({ c: 'stage', to: 'let-down' });
    const down = (t: number) => Math.max(0, 1.8 - 0.4 * t);
    both(s, 10, down, down).say({ c: 'vent', open: false });
    both(s, 30, (t) => 0.03 * t, 0);
    expect(s.heard()).toContain('rebound');
    expect(s.heard()).not.toContain('sensors-differ');
  });
});
