import { expect, it } from 'vitest';
import { mixPlans, packerDays, type SleeveToMix } from './mix.ts';

// An invented resin; the sums are done by hand.
const RESIN = {
  name: 'Resin A',
  potLife: [{ c: 20, minutes: 25 }],
  curePoints: [
    { c: 5, minutes: 210 },
    { c: 15, minutes: 110 },
  ],
};
const sleeve = (more: Partial<SleeveToMix> = {}): SleeveToMix => ({
  resinId: 'a',
  resin: RESIN,
  packerId: 'p',
  packer: 'Packer P',
  plan: { massG: 600, hardenerG: 200, potLifeMin: 25 },
  handlingMin: 20,
  groundC: 15,
  ...more,
});

it('adds the masses of one resin, keeps the shortest pot life and counts what has no mass', () => {
  const plans = mixPlans([
    sleeve(),
    sleeve({ plan: { massG: 450.5, hardenerG: 150, potLifeMin: 19 } }),
    sleeve({ plan: { massG: null, hardenerG: null, potLifeMin: null } }),
    sleeve({ resinId: 'b', plan: { massG: 100, hardenerG: null, potLifeMin: null } }),
  ]);
  expect(plans).toEqual([
    { resinId: 'a', name: 'Resin A', sleeves: 3, unknown: 1, massG: 1050.5, hardenerG: 350, potLifeMin: 19 },
    { resinId: 'b', name: 'Resin A', sleeves: 1, unknown: 0, massG: 100, hardenerG: null, potLifeMin: null },
  ]);
});

it('one packer does its sleeves one after the other: handling and cure time of each', () => {
  expect(packerDays([sleeve(), sleeve()])).toEqual([
    { packerId: 'p', name: 'Packer P', sleeves: 2, leastMin: 2 * (20 + 110) },
  ]);
  // A packer with one sleeve has no day to plan, and a sleeve without a packer none at all.
  expect(packerDays([sleeve(), sleeve({ packerId: 'q' }), sleeve({ packerId: null })])).toEqual([]);
});

it('says no time where handling or ground are not known, or where it is colder than the data sheet', () => {
  for (const more of [{ handlingMin: null }, { groundC: null }, { groundC: 4 }])
    expect(packerDays([sleeve(), sleeve(more)])[0]?.leastMin).toBeNull();
});
