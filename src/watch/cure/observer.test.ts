import { describe, expect, it } from 'vitest';
import type { PipeSetup } from '../../job/setup.ts';
import { GROUND, SLEEVE, WALL } from '../../physics/materials.ts';
import { compositeCylinder } from '../../physics/testing/cylinder.ts';
import { SLOW_RESIN } from '../../rig/cure.ts';
import { createRandom } from '../../rig/random.ts';
import { Sleeve } from '../../rig/testing/sleeve.ts';
import { createObserver, observe } from './observer.ts';

const PIPE: PipeSetup = { innerMm: 150, wallMm: 18, material: 'clay', sleeveMm: 4 };

describe('what lies behind a probe', () => {
  it('settles on the composite cylinder: heat made in the sleeve falls through half of it', () => {
    // Carslaw & Jaeger: shells in series; the sleeve's own heat as seen from its inner face.
    const o = { ...createObserver(PIPE, 'sleeve', 'likely', 20, 10), budgetJ: Number.POSITIVE_INFINITY };
    let face = 0;
    for (let i = 0; i < 120_000; i++) face = observe(o, 20, 20, 10);
    // With the heat credited, flux = (face − ground) over wall and ground; here as one steady cylinder.
    const shells = compositeCylinder(
      0.075,
      [
        { outer: 0.093, k: WALL.clay.k, rhoCp: 1 },
        { outer: 0.593, k: GROUND.k, rhoCp: 1 },
      ],
      { c: face },
      { c: 10 },
    );
    const inside = o.t[o.probe]!;
    const through = shells.heat * (Math.log(75 / 71) / (2 * Math.PI * SLEEVE.k));
    // Uniform source, insulated inside: half of the whole resistance, but for the thinness of the shell.
    expect((inside - face) / through).toBeGreaterThan(0.45);
    expect((inside - face) / through).toBeLessThan(0.56);
    expect(inside).toBeCloseTo(20, 3);
  });

  it('lets the cold corner be colder at every moment', () => {
    for (const place of ['sleeve', 'air'] as const) {
      const a = createObserver(PIPE, place, 'likely', 12, 10);
      const b = createObserver(PIPE, place, 'cold', 12, 10);
      for (let t = 0; t < 4 * 3600; t += 10) {
        const c = 12 + 10 * Math.sin((Math.PI * t) / (5 * 3600));
        expect(observe(b, 10, c, 10)).toBeLessThanOrEqual(observe(a, 10, c, 10) + 1e-9);
      }
    }
  });

  it('no more heat than a resin can hold: a probe in warm air elsewhere is not followed for ever', () => {
    const o = createObserver(PIPE, 'air', 'likely', 10, 10);
    let warmest = 0;
    let last = 0;
    for (let t = 0; t < 48 * 3600; t += 10) {
      last = observe(o, 10, 28, 10);
      warmest = Math.max(warmest, last);
    }
    expect(o.creditJ).toBeLessThanOrEqual(o.budgetJ * (1 + 1e-9));
    expect(last).toBeLessThan(12);
    expect(warmest).toBeGreaterThan(20);
  });

  it.each([
    ['sleeve', 0.6],
    ['air', 1.2],
  ] as const)('follows the outside of a simulated sleeve from its %s within %f K', (place, allowed) => {
    // The simulated wall shares no code with this one.
    const sleeve = new Sleeve({
      kinetics: SLOW_RESIN,
      groundC: 9,
      sleeveC: 16,
      packerC: 13,
      sleeveMm: 4,
      wallMm: 18,
    });
    const o = createObserver(PIPE, place, 'likely', place === 'air' ? 13 : 14.5, 9);
    for (let t = 10; t <= 6 * 3600; t += 10) {
      sleeve.step(10);
      const c = place === 'air' ? sleeve.truth.airC : sleeve.truth.sleeveInnerC;
      const face = observe(o, 10, c, 9);
      if (t > 2400) expect(Math.abs(face - sleeve.truth.sleeveOuterC)).toBeLessThan(allowed);
    }
  });

  it.each(['sleeve', 'air'] as const)(
    'is steady behind a noisy probe that is colder than the ground (%s)',
    (place) => {
      const random = createRandom(5);
      for (const corner of ['likely', 'cold'] as const) {
        const o = createObserver(PIPE, place, corner, 14, 10);
        let swing = 0;
        let worst = 0;
        for (let t = 10; t <= 6 * 3600; t += 10) {
          const face = observe(o, 10, Math.round((8 + 0.2 * random.normal()) * 10) / 10, 10);
          if (t < 3600) continue;
          swing = Math.max(swing, Math.abs(o.t[o.probe]! - 8));
          worst = Math.max(worst, Math.abs(face - 8));
        }
        expect(swing).toBeLessThan(0.6);
        // The ground stays warmer: the face lies between the two, near the probe.
        expect(worst).toBeLessThan(1.2);
        expect(o.creditJ).toBeLessThan(0.02 * o.budgetJ);
      }
    },
  );

  it('is plain data', () => {
    const o = createObserver(null, 'air', 'cold', 15, 10);
    observe(o, 10, 16, 10);
    const copy = JSON.parse(JSON.stringify(o)) as typeof o;
    expect(observe(copy, 10, 17, 10)).toBe(observe(o, 10, 17, 10));
  });
});
