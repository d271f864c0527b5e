import { describe, expect, it } from 'vitest';
import { encodeFrame } from '../link/encode.ts';
import { createScenarioDevice, SCENARIO_CODES, type ScenarioCode, scenario } from './scenarios.ts';

function run(code: ScenarioCode, seconds: number, seed = 1) {
  const device = createScenarioDevice(code, seed);
  device.advance(1);
  device.receive(encodeFrame({ t: 'K', number: 1, command: { verb: 'start', rateHz: 5 } }));
  let bytes = 0;
  for (let s = 2; s <= seconds && device.crew?.phase !== 'done'; s++) {
    device.advance(s);
    bytes += device.take().length;
  }
  return { device, bytes, truth: device.site.truth, sheet: scenario(code).sheet };
}

describe('scenarios', () => {
  it('are all there, and each runs and speaks', () => {
    for (const code of SCENARIO_CODES) {
      const { bytes, device } = run(code, 30);
      expect(bytes, code).toBeGreaterThan(1000);
      expect(device.site.truth.timeS).toBe(30);
    }
    expect(() => scenario('nothing')).toThrow(/nothing/);
  });

  it.each(['normal', 'hand-valved', 'thin-hose'] as const)(
    '%s: fills to working and stays under rated',
    (code) => {
      const { truth, sheet, device } = run(code, 1800);
      expect(device.crew?.phase).toBe('holding');
      expect(truth.packerBar).toBeGreaterThan(sheet.workingBar - 0.15);
      expect(truth.peakBar).toBeLessThan(sheet.ratedBar);
    },
  );

  it.each([
    ['high-regulator', 250],
    ['creep', 600],
    ['stuck-open', 200],
    ['exotherm', 7200],
  ] as const)('%s: passes rated unless somebody acts', (code, seconds) => {
    const { truth, sheet } = run(code, seconds);
    expect(truth.peakBar).toBeGreaterThan(sheet.ratedBar);
  });

  it('normal: the whole job ends cured, vented and tried', () => {
    const { device, truth } = run('normal', 12_000);
    expect(device.crew?.phase).toBe('done');
    expect(truth.leastCured).toBeGreaterThan(0.9);
    expect(truth.packerBar).toBeLessThan(0.08);
  });

  it('leak: the closed packer loses about what was asked for on top of its own settling', () => {
    const leaking = run('leak', 3000).truth.packerBar;
    const tight = run('normal', 3000).truth.packerBar;
    const perMin = ((tight - leaking) * 1000) / 35;
    expect(perMin).toBeGreaterThan(1.9);
    expect(perMin).toBeLessThan(2.6);
  });

  it('cold-pipe: three hours are far from enough', () => {
    expect(run('cold-pipe', 3 * 3600).truth.leastCured).toBeLessThan(0.5);
  });

  it('check-valve: the line reads zero while the packer is full', () => {
    const { truth, device } = run('check-valve', 2400);
    expect(device.crew?.phase).toBe('done');
    expect(truth.hoseBar).toBeLessThan(0.01);
    expect(truth.packerBar).toBeGreaterThan(1);
  });

  it('burst-hose: the packer falls flat', () => {
    expect(run('burst-hose', 1300).truth.packerBar).toBeLessThan(0.1);
  });

  it('fuel-out: a supplied line with a leak sinks', () => {
    expect(run('fuel-out', 3600).truth.packerBar).toBeLessThan(1.1);
  });
});

describe('a second transducer at the regulator', () => {
  /** True pressures with what the second one's counts say, at 5 Hz. */
  function pair(code: ScenarioCode, seconds: number) {
    const device = createScenarioDevice(code, 1);
    const second = device.channels.second!;
    const index = device.channels.frames.length - 1;
    const { rangeHiBar } = second.options;
    const bar = () => {
      const { spanElLo, spanElHi, elLo, elHi, rawHi } = second.scale;
      const el = elLo + (device.channels.counts(index) / rawHi) * (elHi - elLo);
      return ((el - spanElLo) / (spanElHi - spanElLo)) * rangeHiBar;
    };
    const course: { s: number; packer: number; supply: number; second: number }[] = [];
    device.advance(1);
    device.receive(encodeFrame({ t: 'K', number: 1, command: { verb: 'start', rateHz: 5 } }));
    for (let s = 2; s <= seconds; s++) {
      device.advance(s);
      device.take();
      const { packerBar: packer, supplyBar: supply } = device.site.truth;
      course.push({ s, packer, supply, second: bar() });
    }
    return { course, places: device.channels.frames.map((f) => f.place), device };
  }

  it('stands behind all other channels, names its place and reads the outlet', () => {
    const { course, places } = pair('supply-high', 20);
    expect(places.at(-1)).toBe('supply');
    expect(places[0]).toBe('hose');
    for (const { supply, second } of course) expect(second).toBeCloseTo(supply, 1);
    expect(course.at(-1)!.supply).toBeGreaterThan(1.9);
    expect(course.at(-1)!.packer).toBeLessThan(0.01);
  });

  it('regulator-moved: the outlet goes first, the packer passes rated after it', () => {
    const { course } = pair('regulator-moved', 240);
    const first = (of: (c: (typeof course)[number]) => number) =>
      course.find((c) => of(c) > 1.5)?.s ?? Infinity;
    expect(first((c) => c.supply)).toBeLessThan(first((c) => c.packer));
    expect(first((c) => c.packer)).toBeLessThan(240);
  });

  it('kinked-hose: the outlet stands and the packer fills no further', () => {
    const { course } = pair('kinked-hose', 160);
    const [kinked, end] = [course.find((c) => c.s === 103)!, course.at(-1)!];
    expect(end.packer - kinked.packer).toBeLessThan(0.1);
    expect(end.supply - end.packer).toBeGreaterThan(0.2);
  });

  it('sensors-disagree: it reads off; sensors-swapped: each is named for the other', () => {
    const off = pair('sensors-disagree', 20).course.at(-1)!;
    expect(off.supply - off.second).toBeCloseTo(0.45, 1);
    const { places } = pair('sensors-swapped', 3);
    expect([places[0], places.at(-1)]).toEqual(['supply', 'hose']);
  });
});
