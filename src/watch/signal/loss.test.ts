import { describe, expect, it } from 'vitest';
import { setupOf } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

const hold = () =>
  new Script()
    .flow(5, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(40, (t) => Math.min(1.8, t * 0.05))
    .say({ c: 'stage', to: 'hold' })
    .flow(60, 1.8);

describe('silence', () => {
  it('greys the number after half a second, at 20 Hz', () => {
    const s = new Script().flow(2, 0);
    expect(viewOf(s.w, 2.4e6).stale).toBe(false);
    expect(viewOf(s.w, 2.51e6).stale).toBe(true);
    expect(viewOf(s.w, 2.51e6).bar).not.toBeNull();
  });

  it('greys it after two sample periods of a slow device', () => {
    const s = new Script().flow(20, 0, { hz: 0.5 });
    expect(viewOf(s.w, 23.9e6).stale).toBe(false);
    expect(viewOf(s.w, 24.1e6).stale).toBe(true);
  });

  it('is an alarm after 1 s in a fill', () => {
    const s = new Script()
      .flow(2, 0)
      .say({ c: 'stage', to: 'inflate' })
      .flow(10, (t) => t * 0.05)
      .silence(3);
    expect(s.at('pressure-lost', 'unacknowledged')).toBeCloseTo(13, 1);
  });

  it('is an alarm after 5 s in a hold, with its cause', () => {
    const s = hold();
    const from = s.tS;
    s.silence(8);
    expect(s.at('pressure-lost', 'unacknowledged') - from).toBeCloseTo(5, 1);
    expect(s.of('alarm').find((e) => e.alarm === 'pressure-lost')!.values).toMatchObject({
      cause: 'silence',
    });
  });

  it('is an alarm after 1 s in a hold in which air still flows', () => {
    const s = new Script()
      .flow(2, 0)
      .say({ c: 'stage', to: 'hold' })
      .flow(10, (t) => t * 0.1);
    const from = s.tS;
    s.silence(3);
    expect(s.at('pressure-lost', 'unacknowledged') - from).toBeCloseTo(1, 1);
  });

  it('never under five sample periods', () => {
    const s = new Script({ setup: setupOf({ rateHz: 0.5 }) }).flow(20, 0, { hz: 0.5 }).silence(9.9);
    expect(s.heard()).toEqual([]);
    expect(s.silence(0.2).heard()).toEqual(['pressure-lost']);
  });

  it('a pulled plug is told at once, is one alarm, and ends with the first good reading', () => {
    const temps = () => [probeOf('sleeve', 12)];
    const s = new Script()
      .flow(2, 0, { temps })
      .say({ c: 'stage', to: 'hold' })
      .flow(30, 1.8, { temps })
      .notice({ n: 'link', state: 'streaming' })
      .flow(1, 1.8, { temps });
    const pulled = s.tS;
    s.notice({ n: 'link', state: 'lost' });
    expect(s.at('pressure-lost', 'unacknowledged')).toBe(pulled);
    s.silence(20)
      .notice({ n: 'link', state: 'opening' })
      .silence(1)
      .notice({ n: 'device', what: 'reset', bootId: 5, deviceId: 'a' })
      .notice({ n: 'link', state: 'streaming' })
      .silence(0.3);
    expect(s.heard()).toEqual(['pressure-lost']);
    expect(s.states('temperature-lost')).toEqual(['suppressed']);
    s.flow(5, 1.8, { temps });
    expect(s.states('pressure-lost')).toEqual(['unacknowledged', 'returned']);
    expect(s.heard()).toEqual(['pressure-lost']);
    expect(s.of('gap')).toMatchObject([{ reason: 'port' }]);
  });

  it('a port that the crew closed with an empty packer is no alarm; with a full one it is', () => {
    const empty = new Script().flow(2, 0).notice({ n: 'link', state: 'idle' }).silence(60);
    expect(empty.heard()).toEqual([]);
    const full = hold().notice({ n: 'link', state: 'idle' }).silence(60);
    expect(full.heard()).toEqual(['pressure-lost']);
  });

  describe('after the work', () => {
    const PULLED = { n: 'link', state: 'lost' } as const;
    const letDown = (toBar: number) =>
      hold()
        .say({ c: 'stage', to: 'let-down' })
        .flow(12, (t) => Math.max(toBar, 1.8 - 0.2 * t));
    const done = (toBar = 0) => letDown(toBar).say({ c: 'stage', to: 'done' }).flow(2, toBar);

    it('a plug that is pulled, a device or a sensor that is put away at zero, is no alarm', () => {
      expect(done().notice(PULLED).silence(60).heard()).toEqual([]);
      expect(done().silence(60).heard()).toEqual([]);
      expect(
        done()
          .flow(20, null, { more: { flags: FLAG.fault } })
          .heard(),
      ).toEqual([]);
    });

    it('is one on a line under pressure, when the pressure came back, and when it was lost before', () => {
      expect(done(0.06).notice(PULLED).silence(1).heard()).toEqual(['pressure-lost']);
      const back = letDown(0)
        .flow(3, 0)
        .say({ c: 'vent', open: false })
        .flow(15, (t) => 0.05 * Math.min(2, t))
        .say({ c: 'vent', open: true })
        .flow(5, 0)
        .say({ c: 'stage', to: 'done' })
        .flow(2, 0);
      expect(back.notice(PULLED).silence(1).heard()).toEqual(['rebound', 'pressure-lost']);
      const before = letDown(0).notice(PULLED).silence(5).say({ c: 'stage', to: 'done' }).silence(20);
      expect(before.states('pressure-lost')).toEqual(['unacknowledged']);
    });
  });

  it('frames without a usable value are an alarm after half a second', () => {
    const s = hold();
    const from = s.tS;
    s.flow(2, null, { more: { flags: FLAG.fault } });
    expect(s.at('pressure-lost', 'unacknowledged') - from).toBeLessThanOrEqual(0.6);
    expect(s.of('alarm')[0]!.values).toMatchObject({ cause: 'fault' });
  });

  it('a single bad frame of a slow device is none yet', () => {
    const slow = { hz: 0.5 };
    const s = new Script({ setup: setupOf({ rateHz: 0.5 }) }).flow(20, 1, slow);
    s.flow(2, null, { ...slow, more: { flags: FLAG.fault } }).silence(1.5);
    expect(s.heard()).toEqual([]);
    s.flow(4, null, { ...slow, more: { flags: FLAG.fault } }).silence(0.5);
    expect(s.heard()).toEqual(['pressure-lost']);
  });

  it('a port that is being opened again is lost as well, and so is one closed on a line under pressure', () => {
    expect(new Script().flow(2, 0).notice({ n: 'link', state: 'retrying' }).silence(0.1).heard()).toEqual([
      'pressure-lost',
    ]);
    const low = new Script().flow(2, 0.06).notice({ n: 'link', state: 'idle' }).silence(10);
    expect(low.heard()).toEqual(['pressure-lost']);
  });

  it('a sensor that never gave a good value is an alarm, too', () => {
    const s = new Script().flow(3, null, { more: { flags: FLAG.outOfRange } });
    expect(s.heard()).toEqual(['pressure-lost']);
  });

  it('before the first frame there is no alarm, and without a setup the guard of silence runs', () => {
    expect(new Script().silence(60).heard()).toEqual([]);
    expect(new Script({ setup: null }).flow(2, 0.5).silence(3).heard()).toEqual(['pressure-lost']);
  });

  it('garbage in the place of frames is named', () => {
    const s = hold();
    for (let k = 0; k < 10; k++) s.silence(1).notice({ n: 'stray', bytes: 40 });
    expect(s.of('alarm').find((e) => e.alarm === 'pressure-lost')!.values).toMatchObject({
      cause: 'garbage',
    });
    // The strays speak first; then one cause is one alarm.
    expect(s.states('garbage')).toEqual(['unacknowledged', 'suppressed']);
  });

  it('a ceiling alarm does not clear because the cable was pulled', () => {
    const s = new Script({ setup: setupOf() }).flow(3, 2.49).notice({ n: 'link', state: 'lost' }).silence(60);
    expect(s.states('ceiling')).toEqual(['unacknowledged']);
  });
});
