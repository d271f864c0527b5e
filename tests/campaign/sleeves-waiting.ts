/**
 * What the waiting is for: the same sleeves again, with one thing after the other known that a job does not know. Only
 * the scenario is changed, never the judge.
 */
import { isothermalS } from '../../src/rig/testing/isothermal.ts';
import type { SleeveScenario } from './sleeves-scenario.ts';

type Known = (s: SleeveScenario) => SleeveScenario;

/** Temperatures of a sheet that leaves nothing open, °C. */
const MANY = [5, 8, 11, 14, 17, 20, 25, 30];

/** In the order in which they are added. */
export const WAITING: readonly { readonly name: string; readonly know: Known }[] = [
  { name: 'as it is', know: (s) => s },
  {
    name: 'where no water seeps in, that is known',
    know: (s) => (s.options.seep === null ? { ...s, headBar: 0, infiltration: 'none' } : s),
  },
  {
    name: 'the probe has no error',
    know: (s) => ({ ...s, offsetK: 0, uC: 0.02, share: s.probe === 'pipe' ? s.share : 0 }),
  },
  {
    name: 'the sheet has eight exact points',
    know: (s) => {
      const points = MANY.map((c) => ({
        c,
        minutes: Math.round(isothermalS(s.options.kinetics, c, s.criterion) / 6) / 10,
      }));
      return { ...s, resin: { ...s.resin, points: points.filter((p) => Number.isFinite(p.minutes)) } };
    },
  },
  {
    name: 'pipe, sleeve and every conductivity are known',
    know: (s) => {
      const { options } = s;
      const pipe = {
        innerMm: options.pipeMm ?? s.pipe.innerMm,
        wallMm: options.wallMm ?? s.pipe.wallMm,
        material: s.material,
        sleeveMm: options.sleeveMm ?? s.pipe.sleeveMm,
      };
      return {
        ...s,
        pipe,
        options: { ...options, spread: { rubber: 1, sleeve: 1, pipe: 1, ground: 1 } },
      };
    },
  },
  {
    name: 'the ground’s temperature is known',
    know: (s) => ({ ...s, ground: { c: s.options.groundC ?? s.ground.c, uC: 0.02 } }),
  },
  {
    name: 'nothing had cured before seating',
    know: (s) => ({ ...s, options: { ...s.options, degree: 0 } }),
  },
];

/** The sleeve with the first `count` of these things known: 0 is as it is. */
export function knowing(s: SleeveScenario, count: number): SleeveScenario {
  return WAITING.slice(0, count + 1).reduce((one, { know }) => know(one), s);
}
