import { describe, expect, it } from 'vitest';
import { createRigDevice, type RigDevice } from './device.ts';
import { CUP, PAIR, PRACTICE } from './practice-site.ts';

const go = (device: RigDevice, seconds: number) => device.advance(device.nowS + seconds);
/** What a device would send of a channel now. */
const counts = (device: RigDevice, index: number): number => {
  device.channels.convert(device.nowS);
  return device.channels.counts(index);
};
const secondIndex = (device: RigDevice) => device.channels.frames.length - 1;
/** Bar by a current loop's own scale: 4 to 20 mA are its span. */
const bar = (device: RigDevice, index: number): number => {
  const c = device.channels.frames[index]!;
  const uA = c.elLo + (counts(device, index) / c.rawHi) * (c.elHi - c.elLo);
  return ((uA - 4000) / 16_000) * (c.rangeHi / 1e5);
};

describe('sensors and probes where they do not belong', () => {
  it('two transducers swapped each read the other’s place, until they are put right', () => {
    const device = createRigDevice({ ...PAIR, seed: 1 });
    go(device, 2);
    expect(bar(device, 0)).toBeCloseTo(0, 1);
    expect(bar(device, secondIndex(device))).toBeCloseTo(1.5, 1);
    device.fault({ fault: 'sensors-swapped' });
    go(device, 0.5);
    expect(bar(device, 0)).toBeCloseTo(1.5, 1);
    expect(bar(device, secondIndex(device))).toBeCloseTo(0, 1);
    device.fault({ fault: 'put-right' });
    go(device, 0.5);
    expect(bar(device, 0)).toBeLessThan(0.05);
  });

  it('a transducer whose wire is broken gives no current, its fellow goes on', () => {
    const device = createRigDevice({ ...PAIR, seed: 1 });
    device.fault({ fault: 'first-lost' });
    go(device, 1);
    expect(counts(device, 0)).toBe(0);
    expect(bar(device, secondIndex(device))).toBeCloseTo(1.5, 1);
  });

  it('a cup’s probe beside the cup sees none of its heat, and one in the sleeve sees the sleeve', () => {
    const device = createRigDevice({ ...CUP, seed: 1 });
    const probe = secondIndex(device);
    const sleeve = 1;
    for (let i = 0; i < 40; i++) go(device, 60);
    const warm = counts(device, probe);
    expect(device.site.truth.cupC).toBeGreaterThan(device.site.truth.airC + 8);
    device.fault({ fault: 'cup-in-air' });
    go(device, 120);
    const inAir = counts(device, probe);
    expect(inAir).toBeLessThan(warm);
    device.fault({ fault: 'cup-swapped' });
    const before = counts(device, sleeve);
    go(device, 120);
    expect(counts(device, sleeve)).toBeGreaterThan(before);
    device.fault({ fault: 'put-right' });
    go(device, 120);
    expect(counts(device, probe)).toBeGreaterThan(inAir);
  });
});

describe('a hole in the hose', () => {
  const closed = (lPerMin: number) => {
    const device = createRigDevice({ ...PRACTICE, seed: 1 });
    device.hand({ hand: 'couple', coupled: false });
    device.hand({ hand: 'end', shut: true });
    device.fault({ fault: 'hose-leak', lPerMin });
    device.hand({ hand: 'valve', open: 1 });
    go(device, 10);
    device.hand({ hand: 'valve', open: 0 });
    go(device, 1);
    return device;
  };

  it('lets a closed hose down, which holds without one', () => {
    const [tight, leaks] = [closed(0), closed(2)];
    const [top, leakTop] = [tight.site.truth.hoseBar, leaks.site.truth.hoseBar];
    for (const device of [tight, leaks]) go(device, 5);
    expect(top - tight.site.truth.hoseBar).toBeLessThan(0.001);
    // Two litres a minute out of half a litre (20 m of 8 mm, half of it with the packer): a third of a bar in five seconds.
    expect(leakTop - leaks.site.truth.hoseBar).toBeGreaterThan(0.25);
    expect(leakTop - leaks.site.truth.hoseBar).toBeLessThan(0.35);
  });

  it('keeps the books: what was delivered is held or has escaped', () => {
    const { site } = closed(2);
    const start = createRigDevice({ ...PRACTICE, seed: 1 }).site.books().heldKg;
    const { deliveredKg, escapedKg, heldKg } = site.books();
    expect(start + deliveredKg - escapedKg).toBeCloseTo(heldKg, 7);
  });
});
