import { describe, expect, it } from 'vitest';
import type { ChannelFrame, GuardFrame, SampleFrame } from '../link/frames.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { createGuardTry, judgeGuard, takeGuard, takeGuardSample } from './guard-try.ts';
import { createSupplyTry, judgeSupply, takeSupply } from './supply-try.ts';
import { createWarmTry, holdProbe, judgeWarm, takeTemperature } from './warm-try.ts';

describe('a probe in the hand', () => {
  const held = (course: (s: number) => number | null, seconds = 70) => {
    const w = createWarmTry(2);
    for (let s = 0; s < 10; s += 0.25) takeTemperature(w, s, course(0));
    holdProbe(w);
    for (let s = 0; s < seconds; s += 0.25) takeTemperature(w, 10 + s, course(s));
    return judgeWarm(w);
  };

  it('that rises is good as soon as it has risen; one that does not is known after a minute', () => {
    expect(held((s) => 20 + 12 * (1 - Math.exp(-s / 6)), 5)).toMatchObject({ reason: 'rises', against: 20 });
    expect(held(() => 20, 30).reason).toBe('holding');
    expect(held(() => 20).reason).toBe('none');
    expect(held((s) => 20 + Math.min(2, s / 10)).reason).toBe('little');
  });

  it('that falls is wired the wrong way round', () => {
    const falls = held((s) => 20 - Math.min(8, s / 2), 10);
    expect(falls.reason).toBe('falls');
    expect(falls.value).toBeLessThan(-1);
  });

  it('that gives no temperature, or was never held', () => {
    expect(held(() => null).reason).toBe('no-reading');
    expect(judgeWarm(createWarmTry(1))).toMatchObject({ reason: 'not-held', channel: 1 });
  });
});

describe('the device’s own guard', () => {
  const says = (state: GuardFrame['state'], limitCounts: number | null, sounder: 0 | 1 = 0): GuardFrame => ({
    t: 'G',
    tick: 0,
    state,
    channel: 0,
    limitCounts,
    limitMbar: 300,
    sounder,
  });
  const armed = () => {
    const g = createGuardTry('ok', 0.3, 5000);
    takeGuard(g, says('unarmed', null), 0);
    takeGuard(g, says('armed', 5000), 0);
    return g;
  };

  it('that trips and is heard is good; unheard, mute or late it is not', () => {
    const g = armed();
    expect(judgeGuard(g, 0).reason).toBe('armed');
    takeGuardSample(g, 1, 0.31, true);
    expect(judgeGuard(g, 0)).toMatchObject({ reason: 'mute', value: 0.31 });
    takeGuard(g, says('tripped', 5000, 1), 0.31);
    expect(judgeGuard(g, 0).reason).toBe('not-asked');
    g.heard = false;
    expect(judgeGuard(g, 0).reason).toBe('not-heard');
    g.heard = true;
    expect(judgeGuard(g, 0).reason).toBe('heard');
    const late = armed();
    takeGuardSample(late, 1, 0.4, true);
    takeGuard(late, says('tripped', 5000, 1), 0.4);
    late.heard = true;
    expect(judgeGuard(late, 0).reason).toBe('late');
  });

  it('that is pumped over for a second and says nothing guards nothing', () => {
    const g = armed();
    takeGuardSample(g, 1, 0.34, false);
    takeGuardSample(g, 3, 0.34, false);
    expect(judgeGuard(g, 0).reason).toBe('armed');
    takeGuardSample(g, 4, 0.4, false);
    takeGuardSample(g, 5.5, 0.41, false);
    expect(judgeGuard(g, 0)).toMatchObject({ reason: 'silent', more: 0.41 });
  });

  it('that does not know the command, refuses it, is deaf, or keeps another limit', () => {
    expect(judgeGuard(createGuardTry('unknown', 0.3, 1), 0).reason).toBe('absent');
    expect(judgeGuard(createGuardTry('refused', 0.3, 1), 0).reason).toBe('refused');
    expect(judgeGuard(createGuardTry('range', 0.3, 1), 0).reason).toBe('not-kept');
    expect(judgeGuard(createGuardTry(null, 0.3, 1), 0).reason).toBe('no-answer');
    const g = createGuardTry('ok', 0.3, 5000);
    takeGuard(g, says('armed', 4000), 0);
    expect(judgeGuard(g, 0).reason).toBe('armed');
    for (let k = 0; k < 3; k++) takeGuard(g, says('armed', 4000), 0);
    expect(judgeGuard(g, 0).reason).toBe('not-kept');
  });
});

describe('sensor power', () => {
  // firmware-protocol/SPEC.md, the rig: 12 bits over 6 V, span 4.5 to 5.5 V.
  const channel: ChannelFrame = {
    t: 'C',
    index: 1,
    quantity: 'supply',
    place: null,
    signal: 'voltage',
    partner: null,
    bits: 12,
    rawLo: 0,
    rawHi: 4000,
    elLo: 0,
    elHi: 6_000_000,
    rangeLo: 4_500_000,
    rangeHi: 5_500_000,
    rateMilliHz: 10_000,
  };
  const line = (counts: number, status = 0): SampleFrame => ({
    t: 'S',
    seq: 0,
    tick: 0,
    counts: [1, counts],
    status,
  });
  const lowest = (...lines: SampleFrame[]) => {
    const s = createSupplyTry(suggestChannels([channel])[0]!);
    for (const l of lines) takeSupply(s, l);
    return judgeSupply(s, 60);
  };

  it('is judged by the lowest that it was', () => {
    expect(lowest(line(3333), line(3320))).toMatchObject({ reason: 'steady', more: 5 });
    expect(lowest(line(3333), line(3120), line(3333)).reason).toBe('sags');
    expect(lowest(line(2600)).reason).toBe('sags-far');
    expect(lowest(line(2600)).against).toBeCloseTo(3.9, 3);
    expect(lowest(line(3333, 16)).reason).toBe('told-low');
    expect(judgeSupply(undefined, 60).reason).toBe('not-measured');
  });
});
