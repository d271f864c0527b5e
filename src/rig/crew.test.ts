import { describe, expect, it } from 'vitest';
import { type CrewOptions, createCrew } from './crew.ts';
import type { SiteOptions } from './options.ts';
import { createSite } from './site.ts';

function work(crewOptions: CrewOptions, siteOptions: SiteOptions, untilS: number) {
  const site = createSite(siteOptions);
  const crew = createCrew(crewOptions);
  const flow: { s: number; bar: number; open: number }[] = [];
  while (site.truth.timeS < untilS && crew.phase !== 'done') {
    crew.step(site, site.truth.timeS);
    site.step(0.05);
    flow.push({ s: site.truth.timeS, bar: site.truth.packerBar, open: site.truth.valveOpen });
  }
  return { site, crew, flow };
}

describe('crew', () => {
  it('seats with a pause, fills to the regulator, holds, lets down and tries the rebound: the whole job', () => {
    const { site, crew } = work(
      { seed: 1, workingBar: 1.5, holdS: 120 },
      { regulator: { setBar: 1.5 } },
      1200,
    );
    const order = ['seated', 'full', 'let-down', 'done'].map((w) => crew.acts.findIndex((a) => a.what === w));
    expect(order.every((at) => at >= 0)).toBe(true);
    expect([...order].sort((a, b) => a - b)).toEqual(order);
    expect(site.truth.peakBar).toBeGreaterThan(1.45);
    expect(site.truth.peakBar).toBeLessThan(1.52);
    expect(site.truth.packerBar).toBeLessThan(0.08);
    const seated = crew.acts.find((a) => a.what === 'seated')!.atS;
    const goesOn = crew.acts.find((a) => a.what === 'open' && a.atS > seated)!.atS;
    expect(goesOn - seated).toBeGreaterThanOrEqual(17.9);
  });

  it('doses by hand from a high supply: several openings, ends near working', () => {
    for (let seed = 1; seed <= 5; seed++) {
      const { crew, site } = work(
        { seed, style: 'steps', workingBar: 1.2, seatBar: null },
        { regulator: { setBar: 6 }, valve: { conductance: 8e-9 }, packer: { pipeMm: 200 } },
        400,
      );
      expect(crew.phase).toBe('holding');
      expect(crew.acts.filter((a) => a.what === 'open').length).toBeGreaterThan(2);
      expect(site.truth.packerBar).toBeGreaterThan(1.1);
      expect(site.truth.peakBar).toBeLessThan(1.5);
    }
  });

  it('moves the valve at the hand’s speed and after its reaction', () => {
    const { flow, crew } = work(
      { seed: 2, style: 'steps', workingBar: 1.2, seatBar: null },
      { regulator: { setBar: 5 }, valve: { travelS: 0.6 } },
      120,
    );
    const most = Math.max(...flow.map((f, i) => Math.abs(f.open - (flow[i - 1]?.open ?? 0))));
    expect(most).toBeLessThanOrEqual(0.05 / 0.6 + 1e-9);
    expect(crew.acts.length).toBeGreaterThan(2);
  });

  it('heedless: opens and looks no more, so a high regulator goes where it is set', () => {
    const { site } = work({ seed: 3, style: 'heedless', seatBar: null }, { regulator: { setBar: 2.4 } }, 200);
    expect(site.truth.packerBar).toBeCloseTo(2.4, 1);
  });

  it('tops up a leaking packer', () => {
    const { crew, site } = work(
      { seed: 4, topUpBelowBar: 1.4, holdS: null },
      { leak: { mbarPerMin: 40 }, regulator: { setBar: 1.5 } },
      900,
    );
    expect(crew.acts.filter((a) => a.what === 'top-up').length).toBeGreaterThanOrEqual(2);
    expect(site.truth.packerBar).toBeGreaterThan(1.35);
  });

  it('finds a packer that is not empty behind a thin hose and vents again', () => {
    const { crew } = work(
      { seed: 5, workingBar: 1, holdS: 20, ventS: 2 },
      {
        regulator: { setBar: 1 },
        packer: { pipeMm: 500, lengthM: 1 },
        hose: { lengthM: 30, innerMm: 5 },
        vent: { conductance: 1e-7 },
      },
      4000,
    );
    expect(crew.acts.filter((a) => a.what === 'vent').length).toBeGreaterThan(1);
    expect(crew.phase).toBe('done');
  });

  it('does the same with the same seed and other things with another', () => {
    const run = (seed: number) => work({ seed, style: 'steps' }, { regulator: { setBar: 5 } }, 60).crew.acts;
    expect(run(7)).toEqual(run(7));
    expect(run(7)).not.toEqual(run(8));
  });
});
