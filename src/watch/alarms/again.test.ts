import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../../job/testing/givens.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

/** [alarm, why, bar] of everything that asked for attention, from an event on. */
const asked = (s: Script, from = 0) =>
  s.events
    .slice(from)
    .flatMap((e) =>
      e.e === 'alarm' && e.to === 'unacknowledged' ? [[e.alarm, e.why, e.values.bar ?? 0] as const] : [],
    );

const climb = (from: number) => (t: number) => from + 0.15 * t;
/** Filled past the ceiling (2.48 of 2.5 bar rated), where somebody acknowledges. */
const atCeiling = (bar: number) =>
  new Script()
    .flow(2, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(bar / 0.15, climb(0))
    .acknowledge();
const ACKED = { more: { status: 0 } };

describe('an acknowledged ceiling', () => {
  it('asks again after two minutes as long as the pressure stands there', () => {
    const s = atCeiling(2.49);
    const n = s.events.length;
    s.flow(119, 2.49, ACKED);
    expect(asked(s, n)).toEqual([]);
    s.flow(2, 2.49);
    expect(asked(s, n).map(([alarm, why]) => [alarm, why])).toEqual([['ceiling', 're-annunciated']]);
    const from = s.events.length;
    s.acknowledge().flow(121, 2.49);
    expect(asked(s, from)).toHaveLength(1);
  });

  it('asks again at the rated pressure, as another alarm, and at each tenth over it', () => {
    const s = atCeiling(2.49);
    const n = s.events.length;
    for (let k = 0; k < 320; k++) {
      s.flow(0.05, climb(2.49 + 0.0075 * k));
      s.acknowledge();
    }
    const told = asked(s, n);
    expect(told.map(([alarm, why]) => `${alarm} ${why}`)).toEqual([
      'over-rated condition',
      ...new Array(9).fill('over-rated re-annunciated'),
    ]);
    told.forEach(([, , bar], k) => {
      expect(bar).toBeGreaterThan(LIMITS.ratedBar * (1 + 0.1 * k) - 1e-9);
      expect(bar).toBeLessThan(LIMITS.ratedBar * (1 + 0.1 * k) + 0.02);
    });
  });

  it('is one alarm over the rated pressure, and the ceiling speaks again on the way down', () => {
    const s = atCeiling(2.49).flow(2, climb(2.49)).flow(2, 2.79);
    const shown = () =>
      viewOf(s.w, s.tS * 1e6)
        .alarms.filter((a) => a.state === 'unacknowledged')
        .map((a) => a.alarm);
    expect(shown()).toEqual(['over-rated']);
    s.acknowledge().flow(5, (t) => Math.max(2.47, 2.79 - 0.2 * t));
    expect(shown()).toEqual(['ceiling']);
    expect(s.states('over-rated').at(-1)).toBe('normal');
  });
});

describe('over rated', () => {
  it('is over it: at the rated value the packer is within its rating', () => {
    const no = new Script().flow(4, LIMITS.ratedBar, { sd: 0 });
    expect(no.heard()).toEqual(['ceiling']);
    expect(new Script().flow(4, LIMITS.ratedBar + 0.002, { sd: 0 }).heard()).toContain('over-rated');
  });

  it('says by how much, and afterwards how far it was at its worst', () => {
    const s = new Script().flow(20, (t) => Math.min(2.85, 0.2 * t), { sd: 0 }).flow(5, 2.6, { sd: 0 });
    const values = () => viewOf(s.w, s.tS * 1e6).alarms.find((a) => a.alarm === 'over-rated')?.values;
    expect(values()).toEqual({ bar: 2.6, ratedBar: 2.5, overBar: 0.1 });
    s.flow(5, 2.3, { sd: 0 });
    expect(values()).toEqual({ bar: 2.85, ratedBar: 2.5, overBar: 0.35 });
  });
});

describe('other urgent alarms that were acknowledged', () => {
  it('a reading that stays lost, and a device that stays tripped, ask again after two minutes', () => {
    const lost = new Script().flow(5, 1).silence(5).acknowledge().silence(119);
    expect(asked(lost)).toHaveLength(1);
    lost.silence(2);
    expect(asked(lost).map(([alarm, why]) => [alarm, why])).toEqual([
      ['pressure-lost', 'condition'],
      ['pressure-lost', 're-annunciated'],
    ]);
    const tripped = new Script()
      .flow(5, 1, { more: { status: 8 } })
      .acknowledge()
      .flow(121, 1, { more: { status: 8 } });
    expect(asked(tripped).map(([alarm]) => alarm)).toEqual(['device-trip', 'device-trip']);
  });
});

describe('an acknowledgement', () => {
  it('of what was shown before the alarm came again is refused and recorded', () => {
    const s = new Script().flow(3, 2.49).flow(3, 2.3).flow(3, 2.49);
    s.say({ c: 'acknowledge', alarm: 'ceiling', occurrence: 1 });
    expect(s.of('acknowledge-refused')).toMatchObject([{ alarm: 'ceiling', occurrence: 1, now: 2 }]);
    expect(s.states('ceiling')).toEqual(['unacknowledged', 'returned', 'unacknowledged']);
  });
});

describe('a leak that somebody knows of', () => {
  const air = { hz: 4, temps: () => [{ channel: 1, place: 'air' as const, c: 15, uC: 0.5, flags: 0 }] };
  const falls = (from: number, mbarPerMin: number) => (t: number) => from - (mbarPerMin / 1000 / 60) * t;

  it('is told again when its rate doubles, and not while it goes on as before', () => {
    const s = new Script({ setup: setupOf({ tap: 'packer', rateHz: 4 }) })
      .say({ c: 'stage', to: 'inflate' })
      .flow(20, (t) => 0.09 * t, air)
      .say({ c: 'stage', to: 'hold' })
      .flow(900, falls(1.8, 3), air)
      .acknowledge();
    const n = s.events.length;
    s.flow(300, falls(1.755, 3), air);
    expect(asked(s, n)).toEqual([]);
    s.flow(360, falls(1.74, 12), air);
    expect(asked(s, n).map(([alarm, why]) => `${alarm} ${why}`)).toEqual(['leaking re-annunciated']);
    // Before so much is gone that its level alone would tell.
    expect(1.8 - asked(s, n)[0]![2]).toBeLessThan(0.145);
  });
});
