import { describe, expect, it } from 'vitest';
import type { Setup } from '../../job/setup.ts';
import { setupOf } from '../../job/testing/givens.ts';
import { FLAG } from '../../sensing/reading.ts';
import { suggestChannels } from '../../sensing/suggest.ts';
import { PRESS } from '../../sensing/testing/device.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';

// A sensor of 0-4 bar on 4-20 mA: over 20 mA it is over its span, over 21 mA the loop is at fault (NAMUR NE 43).
const channels = suggestChannels([{ ...PRESS, rangeHi: 400_000 }]);
const OVER = { more: { flags: FLAG.outOfRange } };
const FAULT = { more: { flags: FLAG.fault } };

const filled = (more: Partial<Setup> = {}) =>
  new Script({ setup: setupOf({ channels, ...more }) })
    .say({ c: 'stage', to: 'inflate' })
    .flow(20, (t) => Math.min(1.8, 0.1 * t));
const shown = (s: Script) =>
  viewOf(s.w, s.tS * 1e6)
    .alarms.filter((a) => a.state === 'unacknowledged')
    .map((a) => a.alarm);

describe('a reading over the sensor’s span', () => {
  it('is one urgent alarm with the end of the span, and no lost reading', () => {
    const s = filled().flow(5, 4.05, OVER);
    expect(shown(s)).toEqual(['over-range']);
    expect(s.heard()).not.toContain('pressure-lost');
    expect(s.of('alarm').find((e) => e.alarm === 'over-range')).toMatchObject({
      priority: 'urgent',
      to: 'unacknowledged',
      values: { spanBar: 4 },
    });
  });

  it('needs two frames, so that a spike raises nothing', () => {
    const spike = filled().flow(0.05, 4.05, OVER).flow(2, 1.8);
    expect(spike.heard()).toEqual([]);
    const s = filled();
    const from = s.tS;
    expect(s.flow(0.1, 4.05, OVER).at('over-range', 'unacknowledged') - from).toBeCloseTo(0.1, 5);
  });

  it('is over without any limit, too, and names what is read where no span is known', () => {
    expect(shown(filled({ limits: null }).flow(1, 4.05, OVER))).toEqual(['over-range']);
    const bare = new Script({ setup: null }).flow(2, 1).flow(1, 4.1, { ...OVER, sd: 0 });
    expect(bare.of('alarm')[0]).toMatchObject({ alarm: 'over-range', values: { spanBar: 4.1 } });
  });

  it('of an absolute sensor ends at so much gauge pressure', () => {
    const absolute = channels.map((c) => ({ ...c, gaugeKind: 'absolute' as const }));
    const s = filled({ channels: absolute }).flow(1, 3.02, OVER);
    expect(s.of('alarm').find((e) => e.alarm === 'over-range')!.values).toEqual({ spanBar: 2.987 });
  });

  it('stays over when the signal goes on into its fault band, and asks again after two minutes', () => {
    const s = filled().flow(1, 4.05, OVER).flow(5, null, FAULT);
    expect(shown(s)).toEqual(['over-range']);
    s.acknowledge().flow(119, null, FAULT);
    expect(shown(s)).toEqual([]);
    s.flow(2, null, FAULT);
    expect(shown(s)).toEqual(['over-range']);
    expect(s.heard()).not.toContain('pressure-lost');
  });

  it('is told from a sensor that fails out of the middle of its range', () => {
    expect(shown(filled().flow(5, null, FAULT))).toEqual(['pressure-lost']);
  });

  it('ends when the pressure is read again; the ceiling speaks while it is over that', () => {
    const s = filled().flow(1, 4.05, OVER).acknowledge().flow(3, 2.485);
    expect(shown(s)).toEqual(['ceiling']);
    expect(s.states('over-range').at(-1)).toBe('normal');
  });

  it('does not end because the cable was pulled, which is told as well', () => {
    const s = filled().flow(1, 4.05, OVER).notice({ n: 'link', state: 'lost' }).silence(10);
    expect(shown(s)).toEqual(expect.arrayContaining(['over-range', 'pressure-lost']));
    expect(filled().flow(1, 4.05, OVER).silence(2).heard()).toContain('pressure-lost');
  });
});

describe('what is shown of it', () => {
  const at = (s: Script, later = 0) => viewOf(s.w, (s.tS + later) * 1e6);

  it('is the end of the span and never a number, as long as it is fresh', () => {
    const s = filled();
    expect(at(s).overBar).toBeNull();
    s.flow(2, 4.05, OVER);
    expect(at(s)).toMatchObject({ overBar: 4, stale: true });
    expect(at(s, 0.6).overBar).toBeNull();
    expect(at(s.flow(1, 3.9)).overBar).toBeNull();
  });
});
