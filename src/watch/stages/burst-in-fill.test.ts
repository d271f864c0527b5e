import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { FILLS, play } from '../guard/testing/fills.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const falls = (fromBar: number, rate: number) => (t: number) => Math.max(0, fromBar - rate * t);
/** Filled to this at 0.1 bar/s, then a hose blows off: 0.8 bar a second. */
const burst = (stage: 'seat' | 'inflate', bar: number, settings: Parameters<typeof setupOf>[0] = {}) =>
  new Script({ setup: setupOf(settings) })
    .say({ c: 'stage', to: stage })
    .flow(bar / 0.1, (t) => 0.1 * t)
    .flow(4, falls(bar, 0.8));

describe('a hose that blows off while a hand fills', () => {
  it.each([
    ['seat', 0.4],
    ['inflate', 1],
  ] as const)('is said within 1.5 s in %s, from %d bar, with its question', (stage, bar) => {
    const s = burst(stage, bar);
    expect(s.at('fast-fall', 'unacknowledged') - bar / 0.1).toBeLessThan(1.5);
    expect(s.of('question')).toMatchObject([{ answer: null }]);
    // It stays until it is answered, and nobody is told to top up later.
    s.flow(20, 0);
    expect(viewOf(s.w, s.tS * 1e6).alarms.map((a) => [a.alarm, a.state])).toContainEqual([
      'fast-fall',
      'unacknowledged',
    ]);
    s.say({ c: 'answer', question: 'let-down-or-loss', answer: 'let-down' }).flow(5, 0);
    expect(viewOf(s.w, s.tS * 1e6).question).toBeNull();
  });

  it('is nothing that a tap before a check valve could see', () => {
    expect(burst('inflate', 1, { tap: 'supply' }).heard()).not.toContain('fast-fall');
  });

  it('is said in part, too, where nothing evens out: at the packer, in a pause of the fill', () => {
    for (const [from, to] of [
      [0.4, 0.2],
      [1.5, 1.2],
      [1.5, 0.7],
    ] as const)
      for (const tauS of [0.1, 0.5])
        for (const tap of ['packer', 'hose'] as const) {
          const s = new Script({ setup: setupOf({ tap }) }).say({ c: 'stage', to: 'inflate' });
          s.flow(from / 0.1, (t) => 0.1 * t).flow(12, from);
          const lostS = s.tS;
          s.flow(10, (t) => to + (from - to) * Math.exp(-t / tauS));
          const told = s.at('fast-fall', 'unacknowledged') - lostS < 1.5;
          expect([from, to, tauS, tap, told]).toEqual([from, to, tauS, tap, tap === 'packer']);
        }
  });

  it('is not the heat of a fill that fades, nor what is let out to the working pressure', () => {
    const s = new Script()
      .say({ c: 'stage', to: 'inflate' })
      .flow(22, (t) => 0.1 * t)
      .flow(12, 2.2);
    s.flow(4, (t) => 2.2 - 0.1 * t).flow(60, (t) => 1.71 + 0.09 * Math.exp(-t / 40));
    expect(s.heard()).not.toContain('fast-fall');
  });

  it('is not what a hand does that stops, nor a hose that evens out, on a slow line or a quick one', () => {
    for (const [name, fill] of Object.entries(FILLS)) {
      const { bars } = play(fill, 20);
      const s = new Script().say({ c: 'stage', to: 'inflate' });
      s.flow(bars.length / 20, (t) => bars[Math.round(t * 20) - 1]!, { sd: 0 });
      expect(s.heard(), name).not.toContain('fast-fall');
    }
  });

  it('is not a puff before a limp packer, however long it stands and whatever the hose takes', () => {
    // The line stands near the supply's pressure while the packer unfolds; each shut valve shows how little is in it.
    for (const hz of [2, 20])
      for (const standsS of [0.5, 3, 9, 20]) {
        const s = new Script({ setup: setupOf({ tap: 'hose', rateHz: hz }) }).say({
          c: 'stage',
          to: 'inflate',
        });
        for (let rest = 0.02; rest < 0.2; rest += 0.03)
          s.flow(standsS, (t) => rest + (0.6 - rest) * (1 - Math.exp(-t / 0.15)) + 0.003 * t, { hz }).flow(
            6,
            (t) => rest + 0.03 + 0.55 * Math.exp(-t / 0.2),
            { hz },
          );
        expect([hz, standsS, s.heard()]).toEqual([hz, standsS, []]);
      }
  });

  it('is told from a packer that was filled through such a hose, by what came slowly', () => {
    const s = new Script({ setup: setupOf({ tap: 'hose' }) }).say({ c: 'stage', to: 'inflate' });
    s.flow(25, (t) => 0.6 * (1 - Math.exp(-t / 0.15)) + 0.03 * t).flow(
      6,
      (t) => 0.75 + 0.6 * Math.exp(-t / 0.2),
    );
    expect(s.heard()).toEqual([]);
    const from = s.tS;
    s.flow(5, falls(0.75, 2));
    expect(s.at('fast-fall', 'unacknowledged') - from).toBeLessThan(1.5);
  });

  it('is not one more puff of 0.2 s', () => {
    const puff = new Script().say({ c: 'stage', to: 'seat' });
    puff.flow(1, (t) => 0.6 * t).flow(10, (t) => 0.02 + 0.58 * Math.exp(-t / 0.2));
    expect(puff.heard()).not.toContain('fast-fall');
  });
});
