import { describe, expect, it } from 'vitest';
import { SLOW_RESIN } from './cure.ts';
import { Column, MATERIALS } from './wall.ts';

describe('column: conduction', () => {
  it('follows erfc in a thick wall whose surface is suddenly warm', () => {
    // Semi-infinite solid: (T − T0)/(Ts − T0) = erfc(x/(2·sqrt(α·t))); erfc(0.5) = 0.479500, erfc(1) = 0.157299
    // (tables of the error function). A radius of 50 m makes the cylinder flat.
    const { k, rho, cp } = MATERIALS.clay;
    const alpha = k / (rho * cp);
    const column = new Column({
      innerRadiusM: 50,
      layers: [{ name: 'wall', material: MATERIALS.clay, thicknessM: 0.4, nodes: 400 }],
      groundC: 0,
      gas: { jPerKm: 1e15, filmWm2K: 1e7 },
      gasStartC: 100,
    });
    const t = 3600;
    for (let i = 0; i < 3600; i++) column.step(t / 3600);
    const at = (x: number) => {
      const j = x / 0.001 - 0.5;
      const low = Math.floor(j);
      const f = j - low;
      return (1 - f) * (column.t[1 + low]! - 273.15) + f * (column.t[2 + low]! - 273.15);
    };
    const scale = 2 * Math.sqrt(alpha * t);
    expect(at(0.5 * scale)).toBeCloseTo(47.95, 1);
    expect(at(1.0 * scale)).toBeCloseTo(15.73, 1);
  });

  it('carries through a composite cylinder what the logarithms say', () => {
    // Steady: q = ΔT / (1/(2πr·h) + Σ ln(ro/ri)/(2πk) + contact), W/m: textbook.
    const column = new Column({
      innerRadiusM: 0.06,
      layers: [
        { name: 'rubber', material: MATERIALS.rubber, thicknessM: 0.005, nodes: 3 },
        { name: 'sleeve', material: MATERIALS.sleeve, thicknessM: 0.004, nodes: 4, contactWm2K: 500 },
        { name: 'pipe', material: MATERIALS.clay, thicknessM: 0.016, nodes: 5 },
        { name: 'ground', material: MATERIALS['wet ground'], thicknessM: 0.5, nodes: 10, stretch: 1.3 },
      ],
      groundC: 8,
      gas: { jPerKm: 1e15, filmWm2K: 6 },
      gasStartC: 40,
    });
    for (let i = 0; i < 400; i++) column.step(1e5);
    const ln = (a: number, b: number, k: number) => Math.log(b / a) / (2 * Math.PI * k);
    const r =
      1 / (2 * Math.PI * 0.06 * 6) +
      ln(0.06, 0.065, 0.2) +
      ln(0.065, 0.069, 0.25) +
      1 / (2 * Math.PI * 0.069 * 500) +
      ln(0.069, 0.085, 1.0) +
      ln(0.085, 0.585, 2.0);
    const before = column.lostJ;
    column.step(1000);
    expect((column.lostJ - before) / 1000).toBeCloseTo(32 / r, 4);
  });

  it('cools a lump exponentially', () => {
    const column = new Column({
      innerRadiusM: 0.05,
      layers: [
        { name: 'x', material: { k: 1e6, rho: 1000, cp: 1000 }, thicknessM: 0.01, nodes: 1, contactWm2K: 10 },
      ],
      startC: { x: 50 },
      groundC: 0,
      gas: null,
    });
    // τ = ρ·cp·π(ro² − ri²)/(2π·ro·h): 1e6·0.0011/(0.12·10) s
    const tau = (1e6 * (0.06 ** 2 - 0.05 ** 2)) / (2 * 0.06 * 10);
    for (let i = 0; i < 5000; i++) column.step(tau / 5000);
    expect(column.t[0]! - 273.15).toBeCloseTo(50 * Math.exp(-1), 2);
  });
});

describe('column: balance', () => {
  it('books every joule: stored + lost = given', () => {
    const column = new Column({
      innerRadiusM: 0.066,
      layers: [
        { name: 'rubber', material: MATERIALS.rubber, thicknessM: 0.005, nodes: 4 },
        { name: 'sleeve', material: MATERIALS.sleeve, thicknessM: 0.004, nodes: 6, cures: true },
        { name: 'ground', material: MATERIALS['wet ground'], thicknessM: 1, nodes: 12, stretch: 1.4 },
      ],
      startC: { sleeve: 22 },
      groundC: 9,
      gas: { jPerKm: 30, filmWm2K: 6, ends: { wmK: 0.3, c: 12 } },
      gasStartC: 15,
      seep: { wm2K: 30, c: 6 },
      kinetics: SLOW_RESIN,
    });
    const start = column.storedJ;
    for (let i = 0; i < 500; i++) {
      if (i === 3) column.addHeat(1234);
      column.step(40);
    }
    expect(column.reactedJ).toBeGreaterThan(1000);
    expect(column.endsJ).not.toBe(0);
    const error =
      column.storedJ - start - (1234 + column.reactedJ - column.lostJ - column.seepedJ - column.endsJ);
    expect(Math.abs(error)).toBeLessThan(1e-3);
  });
});
