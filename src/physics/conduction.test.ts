import { describe, expect, it } from 'vitest';
import { type Layer, layerResistance, radialGrid, stepRadial } from './conduction.ts';
import { compositeCylinder, faceTemperature, storedHeat } from './testing/cylinder.ts';
import { erfc, halfSpace } from './testing/half-space.ts';

const WALL: readonly Layer[] = [
  { outer: 0.078, k: 0.25, rhoCp: 2e6 },
  { outer: 0.096, k: 1.2, rhoCp: 1.8e6 },
  { outer: 0.4, k: 1.8, rhoCp: 2.5e6 },
];

describe('erfc', () => {
  // Abramowitz & Stegun, table 7.1 and erfc values (values from memory; scipy gives the same).
  it.each([
    [0, 1],
    [0.5, 0.4795001221869535],
    [1, 0.15729920705028513],
    [2, 0.004677734981047266],
    [3, 2.209049699858544e-5],
    [-1, 1.8427007929497148],
  ])('erfc(%f)', (x, y) => {
    expect(Math.abs(erfc(x) / y - 1)).toBeLessThan(1e-11);
  });
  it('joins smoothly where the method changes', () => {
    expect(erfc(2 - 1e-9) - erfc(2)).toBeCloseTo((2 / Math.sqrt(Math.PI)) * Math.exp(-4) * 1e-9, 14);
  });
});

describe('steady', () => {
  it('one layer is ln(r2/r1)/(2πk) (Carslaw & Jaeger)', () => {
    expect(layerResistance(0.05, 0.1, 1)).toBeCloseTo(Math.LN2 / (2 * Math.PI), 12);
    const s = compositeCylinder(0.05, [{ outer: 0.1, k: 1, rhoCp: 1 }], { c: 30 }, { c: 10 });
    expect(s.heat).toBeCloseTo((20 * 2 * Math.PI) / Math.LN2, 9);
    expect(s.surfaces).toEqual([30, expect.closeTo(10, 9)]);
  });

  it('the implicit steps settle on the composite cylinder to 1e-6', () => {
    const inside = { h: 8, c: 35 };
    const outside = { c: 10 };
    const closed = compositeCylinder(0.075, WALL, inside, outside);
    const grid = radialGrid(0.075, WALL, [6, 12, 40], 10);
    let heat = { inJ: 0, outJ: 0 };
    for (let i = 0; i < 400; i++) heat = stepRadial(grid, 1e6, inside, outside);
    expect(Math.abs(heat.inJ / 1e6 / closed.heat - 1)).toBeLessThan(1e-6);
    expect(-heat.outJ / heat.inJ).toBeCloseTo(1, 8);
    expect(faceTemperature(grid, 6, WALL)).toBeCloseTo(closed.surfaces[1]!, 6);
    expect(faceTemperature(grid, 18, WALL)).toBeCloseTo(closed.surfaces[2]!, 6);
  });
});

describe('unsteady', () => {
  it('keeps its energy to rounding, with a source and any step length', () => {
    for (const dt of [0.5, 60, 86_400]) {
      const grid = radialGrid(0.075, WALL, [6, 12, 20], 10);
      const source = new Float64Array(grid.c.length);
      source.fill(50_000, 0, 6);
      const made = source.reduce((s, q, i) => s + q * grid.area[i]!, 0) * dt;
      for (let i = 0; i < 20; i++) {
        const before = storedHeat(grid);
        const { inJ, outJ } = stepRadial(grid, dt, { h: 8, c: 25 }, { c: 10 }, source);
        const balance = storedHeat(grid) - before - inJ - outJ - made;
        expect(Math.abs(balance)).toBeLessThan(1e-9 * storedHeat(grid));
      }
    }
  });

  it('follows the erfc solution of a half space where the curvature is small', () => {
    // Radius 10 m, 0.3 m deep: a flat wall but for a per cent or so.
    const layer: Layer = { outer: 10.3, k: 1.5, rhoCp: 2e6 };
    const grid = radialGrid(10, [layer], [600], 10);
    const dt = 5;
    for (let t = 0; t < 7200; t += dt) stepRadial(grid, dt, { c: 40 }, { c: 10 });
    for (const depth of [0.01, 0.03, 0.06, 0.1]) {
      const i = Math.round(depth / 0.0005) - 1;
      const exact = halfSpace(grid.centres[i]! - 10, 7200, 1.5 / 2e6, 10, 40);
      expect(Math.abs(grid.c[i]! - exact)).toBeLessThan(0.15);
    }
  });

  it('is of first order in time: half the step, half the error', () => {
    const run = (dt: number): number => {
      const grid = radialGrid(0.075, WALL, [6, 12, 40], 10);
      for (let i = 0; i < Math.round(1800 / dt); i++) stepRadial(grid, dt, { h: 8, c: 40 }, { c: 10 });
      return grid.c[5]!;
    };
    const exact = run(0.5);
    const ratio = (run(20) - exact) / (run(10) - exact);
    expect(ratio).toBeGreaterThan(1.9);
    expect(ratio).toBeLessThan(2.2);
  });

  it('an insulated wall keeps its heat', () => {
    const grid = radialGrid(0.075, WALL, [3, 3, 3], 17);
    const heat = stepRadial(grid, 3600, { h: 0, c: 90 }, { h: 0, c: -20 });
    expect(heat.inJ).toBe(0);
    expect(grid.c.every((c) => Math.abs(c - 17) < 1e-12)).toBe(true);
  });

  it('refuses impossible walls', () => {
    expect(() => radialGrid(0.1, [{ outer: 0.05, k: 1, rhoCp: 1 }], [3], 0)).toThrow(RangeError);
    expect(() => radialGrid(0.1, [{ outer: 0.2, k: 1, rhoCp: 1 }], [], 0)).toThrow(RangeError);
    expect(() => compositeCylinder(0.1, [], { c: 1 }, { c: 0 })).toThrow(RangeError);
  });
});
