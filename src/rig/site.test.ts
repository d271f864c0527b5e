import { describe, expect, it } from 'vitest';
import type { SiteOptions } from './options.ts';
import { createRandom } from './random.ts';
import { createSite, type Site } from './site.ts';

const STIFF = {
  limpShare: 0.99,
  stiffPerBar: 1e-6,
  creepPerBar: 0,
  slowCreepPerBar: 0,
  squeezeShare: 0,
  freeInflationBar: 0.05,
};

function fill(site: Site, seconds: number): void {
  site.valve(1);
  site.step(seconds);
  site.valve(0);
  site.step(2);
}

describe('site: conservation', () => {
  const cases: readonly [string, SiteOptions][] = [
    ['plain', {}],
    ['relieving, lagging, creeping', { regulator: { relieving: true, lagS: 0.3, creepBarPerMin: 0.4 } }],
    ['leak, relief valve, check valve', { leak: { mbarPerMin: 20 }, reliefBar: 1.2, nonReturn: 'valve' }],
    ['stuck open', { regulator: { stuckOpen: true }, packer: { pipeMm: 600, lengthM: 1.2 } }],
  ];
  it.each(cases)('air and energy are booked to rounding: %s', (_name, options) => {
    const site = createSite(options);
    const start = site.books();
    fill(site, 20);
    site.step(300);
    site.vent(1);
    site.step(40);
    site.couple(false);
    site.step(5);
    const end = site.books();
    const air = end.heldKg + end.escapedKg - end.deliveredKg - start.heldKg;
    expect(Math.abs(air)).toBeLessThan(1e-12 + 1e-10 * start.heldKg);
    // First law: what came in = what it holds more + work done + heat given.
    const energy = end.enthalpyInJ - end.workJ - end.heatToWallJ - (end.gasJ - start.gasJ);
    expect(Math.abs(energy)).toBeLessThan(1e-6 * (Math.abs(end.enthalpyInJ) + end.gasJ));
  });
});

describe('site: gas law', () => {
  // Closed volume, 1.500 bar(g) at 20 °C, air 1.01325 bar → 1.4143 at 10 °C, 1.8429 at 60 °C: ideal gas in
  // absolute units, computed apart.
  it.each([
    [10, 1.4143],
    [60, 1.8429],
  ])('a closed stiff packer at 1.5 bar and 20 °C shows at %d °C %d bar', (toC, bar) => {
    const site = createSite({
      packer: STIFF,
      pipe: { groundC: 20, startC: 20 },
      airC: 20,
      // Hardly any hose: its air stays at the air's temperature.
      hose: { lengthM: 0.02, innerMm: 4 },
      nonReturn: 'valve',
    });
    fill(site, 1800);
    site.step(36_000);
    const { packerBar, gasC } = site.truth;
    // The wall is brought to the other temperature from outside and the gas follows.
    site.wall.groundK = toC + 273.15;
    site.wall.t.fill(toC + 273.15);
    site.step(36_000);
    const expected = (packerBar + 1.01325) * ((toC + 273.15) / (gasC + 273.15)) - 1.01325;
    expect(site.truth.gasC).toBeCloseTo(toC, 2);
    expect(site.truth.packerBar).toBeCloseTo(expected, 4);
    expect(packerBar).toBeCloseTo(1.5, 2);
    expect(site.truth.packerBar).toBeCloseTo(bar, 2);
  });

  it('fills a stiff insulated bottle hot: up to γ times the supply temperature from empty', () => {
    // Filling an evacuated insulated vessel ends at γ·T (textbook result); from 1 bar abs to much more it lies
    // between T and γ·T. With T0 = T: T2 = γ·T/(1 + (γ − 1)·p1/p2).
    const site = createSite({
      packer: { ...STIFF, lengthM: 0.6 },
      hose: { lengthM: 0.02, innerMm: 8 },
      heat: { filmWm2K: 1e-6, stir: 0 },
      regulator: { setBar: 5, conductance: 1e-7 },
      valve: { conductance: 1e-7 },
      compressor: { receiverL: 2000 },
      airC: 15,
      pipe: { groundC: 15 },
    });
    site.valve(1);
    site.step(120);
    const gamma = 1005 / (1005 - 287.055);
    const ratio = 1.01325 / (site.truth.packerBar + 1.01325);
    const expected = (gamma * 288.15) / (1 + (gamma - 1) * ratio) - 273.15;
    expect(site.truth.packerBar).toBeGreaterThan(4.9);
    expect(Math.abs(site.truth.gasC - expected)).toBeLessThan(2);
  });
});

describe('site: taps', () => {
  it('reads above the packer at the hose while filling, below while venting', () => {
    const site = createSite({ hose: { lengthM: 30, innerMm: 5 } });
    site.valve(1);
    site.step(5);
    expect(site.truth.supplyBar).toBeGreaterThan(site.truth.hoseBar);
    expect(site.truth.hoseBar).toBeGreaterThan(site.truth.packerBar + 0.1);
    site.step(60);
    site.valve(0);
    site.step(10);
    expect(Math.abs(site.truth.hoseBar - site.truth.packerBar)).toBeLessThan(0.001);
    site.vent(1);
    site.step(3);
    expect(site.truth.hoseBar).toBeLessThan(site.truth.packerBar - 0.1);
  });

  it('lifts the packer a little after the valve is shut: air stored in the hose', () => {
    const site = createSite({
      regulator: { setBar: 5 },
      hose: { lengthM: 30, innerMm: 8 },
      packer: { pipeMm: 100, lengthM: 0.5 },
      valve: { travelS: 0.3 },
    });
    site.valve(1);
    while (site.truth.packerBar < 1) site.step(0.02);
    site.valve(0);
    site.step(0.3);
    const atShut = site.truth.packerBar;
    site.step(1.5);
    expect(site.truth.packerBar - atShut).toBeGreaterThan(0.01);
    expect(site.truth.packerBar - atShut).toBeLessThan(0.4);
  });

  it('a self-sealing coupling keeps the packer full while the hose reads zero', () => {
    const site = createSite({ nonReturn: 'coupling' });
    fill(site, 40);
    site.vent(1);
    site.step(30);
    expect(site.truth.hoseBar).toBeLessThan(0.001);
    expect(site.truth.packerBar).toBeGreaterThan(1.3);
  });

  it('a vented hose reads near zero long before a big packer is empty, and rebounds when it is shut', () => {
    const site = createSite({
      packer: { pipeMm: 600, lengthM: 1.2 },
      hose: { lengthM: 30, innerMm: 5 },
      regulator: { setBar: 1 },
      vent: { conductance: 1e-7 },
    });
    site.valve(1);
    site.step(900);
    site.valve(0);
    site.vent(1);
    site.step(60);
    expect(site.truth.hoseBar).toBeLessThan(0.02);
    expect(site.truth.packerBar).toBeGreaterThan(0.1);
    site.vent(0);
    site.step(25);
    expect(site.truth.hoseBar).toBeGreaterThan(0.1);
  });
});

describe('site: regulator and faults', () => {
  it('settles at the set point, with droop under flow', () => {
    const site = createSite({ regulator: { setBar: 1.8 } });
    site.valve(1);
    site.step(1);
    expect(site.truth.supplyBar).toBeLessThan(1.79);
    site.step(240);
    expect(site.truth.packerBar).toBeCloseTo(1.8, 2);
  });

  it('only a relieving regulator lets a warmed line down', () => {
    const run = (relieving: boolean) => {
      const site = createSite({ regulator: { relieving, relieveOffsetBar: 0.02 } });
      site.valve(1);
      site.step(300);
      site.wall.t.fill(273.15 + 40);
      site.wall.groundK = 273.15 + 40;
      site.step(1200);
      return site.truth.packerBar;
    };
    expect(run(true)).toBeLessThan(1.54);
    expect(run(false)).toBeGreaterThan(1.6);
  });

  it('creeps upwards as fast as told', () => {
    const site = createSite({ regulator: { creepBarPerMin: 0.1, creepFromS: 60 } });
    site.valve(1);
    site.step(60);
    const before = site.truth.packerBar;
    site.step(180);
    expect(site.truth.packerBar - before).toBeGreaterThan(0.25);
    expect(site.truth.packerBar - before).toBeLessThan(0.32);
  });

  it('stuck open ends at the receiver’s pressure', () => {
    const site = createSite();
    site.valve(1);
    site.step(40);
    site.stuckOpen(true);
    site.step(60);
    expect(site.truth.packerBar).toBeGreaterThan(4);
  });

  it('leaks at the rate that was asked for', () => {
    const site = createSite({ packer: STIFF, leak: { mbarPerMin: 4, atBar: 1.5 } });
    fill(site, 60);
    site.step(3600);
    const before = site.truth.packerBar;
    const rate = site.leakRateMbarPerMin();
    site.step(60);
    expect((before - site.truth.packerBar) * 1000).toBeCloseTo(rate, 1);
    expect(createSite({ leak: { mbarPerMin: 4 } }).leakRateMbarPerMin()).toBe(0);
  });

  it('compressor keeps its band, and runs dry when the fuel is out', () => {
    const site = createSite({ compressor: { fuelOutS: 100 }, leak: { mbarPerMin: 2000 } });
    site.valve(1);
    let low = 9;
    for (let i = 0; i < 95; i++) {
      site.step(1);
      low = Math.min(low, site.truth.receiverBar);
    }
    expect(low).toBeGreaterThan(5.5);
    site.step(1500);
    expect(site.truth.receiverBar).toBeLessThan(1);
  });
});

describe('site: mimics of a leak', () => {
  it('heat of the fill fades by 5-40 K and takes tens of mbar with it, without any leak', () => {
    const site = createSite();
    fill(site, 12);
    const after = { ...site.truth };
    site.step(600);
    expect(after.gasC - site.truth.gasC).toBeGreaterThan(5);
    expect(after.packerBar - site.truth.packerBar).toBeGreaterThan(0.03);
    expect(Math.abs(site.truth.packerKg - after.packerKg)).toBeLessThan(1e-4);
  });

  it('the rubber creeps: pressure falls in an isothermal closed packer', () => {
    const site = createSite();
    fill(site, 60);
    site.step(300);
    const { packerBar, volumeL } = site.truth;
    site.step(1200);
    expect(site.truth.volumeL).toBeGreaterThan(volumeL);
    expect(site.truth.packerBar).toBeLessThan(packerBar - 0.003);
  });
});

describe('site: numbers', () => {
  it('halving the inner steps changes a fill by under a millibar', () => {
    const run = (stepScale: number) => {
      const site = createSite({ stepScale });
      site.valve(1);
      const trace: number[] = [];
      for (let i = 0; i < 200; i++) {
        site.step(0.2);
        trace.push(site.truth.packerBar);
      }
      return trace;
    };
    const coarse = run(1);
    const fine = run(0.5);
    const apart = Math.max(...coarse.map((p, i) => Math.abs(p - fine[i]!)));
    expect(apart).toBeLessThan(0.001);
  });

  it('hardly depends on how the time is cut, and is exactly repeatable', () => {
    const run = (cut: number) => {
      const site = createSite();
      site.valve(1);
      for (let i = 0; i < 20 / cut; i++) site.step(cut);
      return site.truth.packerBar;
    };
    expect(run(0.005)).toBe(run(0.005));
    expect(Math.abs(run(0.005) - run(1))).toBeLessThan(0.002);
  });

  it('refuses options that make no sense', () => {
    expect(() => createSite({ supplyL: 0 })).toThrow(/supplyL/);
    expect(() => createSite({ packer: { pipeMm: 10 } })).toThrow(RangeError);
  });
});

describe('site: every site', () => {
  it('stays finite, between the air and the compressor, and keeps its books, for 80 drawn sites and hands', () => {
    const r = createRandom(20);
    for (let i = 0; i < 80; i++) {
      const site = createSite({
        airBar: r.range(0.75, 1.05),
        airC: r.range(-5, 35),
        regulator: {
          setBar: r.range(0.5, 6),
          droopBar: r.range(0.03, 0.6),
          conductance: r.logRange(1e-9, 2e-7),
          lagS: r.chance(0.5) ? r.range(0.02, 0.8) : 0,
          relieving: r.chance(0.5),
          creepBarPerMin: r.chance(0.3) ? r.range(0.05, 1) : 0,
        },
        supplyL: r.logRange(0.02, 5),
        valve: { conductance: r.logRange(1e-9, 1e-7), travelS: r.range(0.1, 1) },
        hose: { lengthM: r.logRange(0.05, 60), innerMm: r.range(3, 16) },
        nonReturn: r.pick(['none', 'valve', 'coupling'] as const),
        reliefBar: r.chance(0.3) ? r.range(0.8, 3) : null,
        packer: {
          pipeMm: r.range(70, 700),
          lengthM: r.range(0.3, 2.5),
          freeInflationBar: r.range(0.05, 0.8),
          limpShare: r.range(0.05, 0.5),
          stiffPerBar: r.range(0.005, 0.05),
        },
        leak: { mbarPerMin: r.chance(0.5) ? r.logRange(0.5, 500) : 0 },
        pipe: { groundC: r.range(2, 20) },
      });
      const start = site.books();
      for (let j = 0; j < 25; j++) {
        const what = r.int(0, 5);
        if (what <= 1) site.valve(r.next());
        else if (what === 2) site.vent(r.chance(0.5) ? r.next() : 0);
        else if (what === 3) site.regulator(r.range(0, 6));
        else if (what === 4) site.couple(r.chance(0.7));
        else site.stuckOpen(r.chance(0.3));
        site.step(r.logRange(0.05, 30));
        const t = site.truth;
        for (const bar of [t.supplyBar, t.hoseBar, t.packerBar]) {
          expect(bar).toBeGreaterThan(-0.05);
          // Warmed by its own fill a closed packer may pass the receiver a little.
          expect(bar).toBeLessThan(9);
        }
        expect(t.gasC).toBeGreaterThan(-120);
        expect(t.gasC).toBeLessThan(150);
      }
      const end = site.books();
      const air = end.heldKg + end.escapedKg - end.deliveredKg - start.heldKg;
      expect(Math.abs(air)).toBeLessThan(1e-9 * (start.heldKg + end.deliveredKg));
      const energy = end.enthalpyInJ - end.workJ - end.heatToWallJ - (end.gasJ - start.gasJ);
      expect(Math.abs(energy)).toBeLessThan(1e-6 * (Math.abs(end.enthalpyInJ) + end.gasJ));
    }
  });
});
