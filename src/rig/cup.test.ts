import { describe, expect, it } from 'vitest';
import { Cup, slowed } from './cup.ts';
import { QUICK_RESIN } from './cure.ts';

const OPTIONS = { kinetics: QUICK_RESIN, slow: 1, potC: 18, airC: 12, tauS: 2200, heat: 1.3, draught: null };
const peakOf = (o: typeof OPTIONS) => {
  const cup = new Cup(o);
  let at = 0;
  let most = cup.c;
  for (let t = 10; t <= 4 * 3600; t += 10) {
    cup.step(10);
    if (cup.c > most) [most, at] = [cup.c, t];
  }
  return { at, most };
};

describe('a cup of resin', () => {
  it('without a reaction cools by its time constant', () => {
    const cup = new Cup({ ...OPTIONS, kinetics: { ...QUICK_RESIN, heatJkg: 0 } });
    cup.step(2200);
    expect(cup.c).toBeCloseTo(12 + 6 / Math.E, 1);
  });

  it('is warmed no further than by all of its heat', () => {
    const most = 18 + (QUICK_RESIN.heatJkg * 1.3) / 1800;
    expect(peakOf(OPTIONS).most).toBeLessThan(most);
    expect(peakOf({ ...OPTIONS, tauS: 1e9 }).most).toBeGreaterThan(0.95 * most);
  });

  it('of a batch at 1.5 times the usual time peaks later and lower', () => {
    const [usual, slow] = [peakOf(OPTIONS), peakOf({ ...OPTIONS, slow: 1.5 })];
    expect(slow.at / usual.at).toBeGreaterThan(1.4);
    expect(slow.most).toBeLessThan(usual.most);
  });

  it('a usual batch is the resin itself', () => {
    expect(slowed(QUICK_RESIN, 1)).toEqual(QUICK_RESIN);
  });
});
