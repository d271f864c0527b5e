import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../job/job-document.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { PRESS, PROBE } from '../sensing/testing/device.ts';
import { DEMO } from '../words/testing/demo.ts';
import { makeSetup } from './setup.ts';
import { codes, DEVICE, plan } from './testing/plan-of.ts';

describe('sensors and device', () => {
  it('a calibration of another device, out of date, or without sense is said', () => {
    const [transducer, ...rest] = DEMO.sensors;
    const with_ = (more: object, job: Partial<JobDocument> = {}) => {
      const sensors = [{ ...transducer!, document: { ...transducer!.document, ...more } }, ...rest];
      return plan(job, { sensors });
    };
    const foreign = with_({ deviceId: 'OTHER' });
    expect(codes(foreign.warnings)).toContain('calibration-other-device');
    expect(foreign.setup.channels[0]!.calibration).toBeNull();
    expect(foreign.setup.limits!.uBar).toBeGreaterThan(plan().setup.limits!.uBar);
    expect(codes(with_({}, { date: '2027-04-01' }).warnings)).toContain('calibration-due');
    const points = [
      { indicated: 0, reference: 0 },
      { indicated: 58, reference: 4 },
    ];
    const psi = { ...transducer!.document.calibration!, asFound: points, asLeft: points };
    expect(codes(with_({ calibration: psi }).warnings)).toContain('calibration-refused');
    expect(codes(with_({ signal: 'ratio' }).warnings)).toContain('signal-differs');
  });

  it('the pressure channel that the job names is the only one; a thermocouple is none, whatever the sheet says', () => {
    const two = {
      hello: DEVICE.hello,
      channels: [PRESS, { ...PRESS, index: 1 }, { ...PROBE, index: 2, partner: null }],
    };
    const channel = (n: number, role: 'pressure' | 'temperature') =>
      ({ channel: n, role, place: null, sensorId: null }) as const;
    const of = (channels: JobDocument['device']['channels']) =>
      makeSetup({
        bundle: { ...DEMO, job: { ...DEMO.job, device: { deviceId: null, channels, rateHz: 20 } } },
        settings: null,
        device: two,
        number: 1,
        practice: false,
      });
    expect(of([channel(1, 'pressure')]).setup.channels.map((c) => c.role)).toEqual([
      'unused',
      'pressure',
      'temperature',
    ]);
    const odd = of([channel(2, 'pressure'), channel(0, 'temperature')]);
    expect(odd.setup.channels[2]!.role).toBe('temperature');
    expect(codes(odd.warnings)).toContain('signal-differs');
  });

  it('a voltage without stated ends of its span is not read, and that is said', () => {
    const p = makeSetup({
      bundle: {
        ...DEMO,
        job: { ...DEMO.job, device: { deviceId: null, channels: [], rateHz: 20 } },
        sensors: [],
      },
      settings: null,
      device: { hello: DEVICE.hello, channels: [{ ...PRESS, signal: 'voltage', elLo: 0, elHi: 5_000_000 }] },
      number: 1,
      practice: false,
    });
    expect(codes(p.warnings)).toContain('span-unknown');
    expect(p.setup.channels.map((c) => c.role)).toEqual(['unused']);
    expect(parseSetup(p.setup).ok).toBe(true);
  });

  it('without a device the limits stand and the channels come later', () => {
    const p = plan({}, {}, null);
    expect(p.setup.channels).toEqual([]);
    expect(p.setup.limits!.ratedBar).toBe(1.8);
    expect(codes(p.warnings)).toContain('device-not-described');
    expect(parseSetup(p.setup).ok).toBe(true);
    expect(codes(plan({}, { sensors: [] }, null).warnings)).toContain('u-assumed');
  });

  describe('a second pressure', () => {
    const outlet = { ...PRESS, index: 5, place: 'supply', rangeHi: 1_000_000 } as const;
    const two = { hello: { ...DEVICE.hello, channels: 6 }, channels: [...DEVICE.channels, outlet] };
    const named = (role: 'outlet-pressure' | 'check-pressure', tap: JobDocument['tap'] = 'hose') =>
      makeSetup({
        bundle: {
          ...DEMO,
          job: {
            ...DEMO.job,
            tap,
            device: {
              ...DEMO.job.device,
              channels: [...DEMO.job.device.channels, { channel: 5, role, place: null, sensorId: null }],
            },
          },
        },
        settings: null,
        device: two,
        number: 1,
        practice: false,
      });

    it('is what the job says it is, read by its own scale, and moves no limit', () => {
      const p = named('outlet-pressure');
      expect(p.setup.channels[5]).toMatchObject({ role: 'outlet-pressure', rangeHi: 10, gaugeKind: 'gauge' });
      expect(p.setup.limits).toEqual(plan().setup.limits);
      expect(codes(p.warnings)).toContain('calibration-none');
      expect(parseSetup(JSON.parse(JSON.stringify(p.setup)))).toEqual({ ok: true, value: p.setup });
    });

    it('stays where a job of before it says nothing of it, and is left out at the outlet twice', () => {
      const bare = { bundle: DEMO, settings: null, device: two, number: 1, practice: false };
      expect(
        makeSetup(bare)
          .setup.channels.map((c) => c.role)
          .filter((r) => r.endsWith('pressure')),
      ).toEqual(['pressure', 'outlet-pressure']);
      const twice = named('outlet-pressure', 'supply');
      expect(twice.setup.channels[5]!.role).toBe('unused');
      expect(codes(twice.warnings)).toContain('second-left-out');
      expect(named('check-pressure', 'hose').setup.channels[5]!.role).toBe('check-pressure');
    });
  });

  it('an empty assignment leaves the channels to the device', () => {
    const p = plan({ device: { deviceId: null, channels: [], rateHz: 1000 } });
    expect(p.setup.channels.map((c) => c.role)).toEqual([
      'pressure',
      'temperature',
      'temperature',
      'temperature',
      'junction',
    ]);
    expect(p.setup.rateHz).toBe(200);
  });
});
