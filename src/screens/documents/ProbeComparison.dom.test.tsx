import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import { parseDocument } from '../../job/documents.ts';
import { blankSensor, type SensorDocument } from '../../job/sensor-document.ts';
import type { ChannelSetup, Setup } from '../../job/setup.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchView } from '../../watch/view.ts';
import { type LinkShown, type Services, ServicesContext } from '../context.ts';
import { CalibrationPart } from './CalibrationPart.tsx';
import { formOver } from './form.ts';

afterEach(cleanup);

const PROBE: SensorDocument = {
  ...blankSensor('Sleeve probe', 'TC-1'),
  quantity: 'temperature',
  signal: 'thermocouple',
  thermocouple: 'K',
  thermocoupleClass: 2,
  gaugeKind: null,
  span: null,
  range: { lo: -40, hi: 200 },
};

function bench(
  first: SensorDocument = PROBE,
  link: { kind: 'serial' | 'rig'; deviceId: string } = { kind: 'serial', deviceId: 'sb-7' },
) {
  const [sensor, setSensor] = createSignal(first);
  const [view, setView] = createSignal<WatchView | null>(null);
  const [setup, setSetup] = createSignal<Setup | null>(null);
  const shown = { kind: link.kind, hello: { deviceId: link.deviceId } } as unknown as LinkShown;
  const live = { view, setup, link: () => shown };
  const form = formOver('sensor', sensor, setSensor, () => METRIC);
  render(() => (
    <ServicesContext.Provider value={{ units: () => METRIC, live } as unknown as Services}>
      <CalibrationPart form={form} />
    </ServicesContext.Provider>
  ));
  let tS = 0;
  /** So many seconds of both channels, twice a second. */
  const read = (seconds: number, c1: (s: number) => number | null, c2 = () => 15) => {
    for (let k = 0; k < 2 * seconds; k++) {
      tS += 0.5;
      const temps = [
        { channel: 1, place: null, c: c1(tS), uC: 2, flags: 0 },
        { channel: 2, place: null, c: c2(), uC: 2, flags: 0 },
      ];
      setView({ tUs: tS * 1e6, ageS: 0, temps } as unknown as WatchView);
    }
  };
  /** Nothing has come for so many seconds. */
  const silent = (seconds: number) => {
    const before = view();
    tS += seconds;
    setView({ ...before, tUs: tS * 1e6, ageS: seconds } as unknown as WatchView);
  };
  return { sensor, setSensor, setSetup, read, silent };
}
const key = (id: string) => screen.getByTestId(id) as HTMLButtonElement;

describe('a probe compared at one point', () => {
  it('in melting ice: taken once it stands still, a calibration by an offset that can be saved', () => {
    const { sensor, read } = bench();
    fireEvent.click(key('compare-in-ice'));
    expect(sensor().calibration).toMatchObject({ uReference: 0.1, asFound: [] });
    read(20, (s) => 15 * Math.exp(-s / 5));
    expect(key('comparison-take-1').disabled).toBe(true);
    read(40, () => 0.6);
    expect(screen.getByTestId('comparison-1').textContent).toContain('0.6');
    fireEvent.click(key('comparison-take-1'));
    expect(sensor()).toMatchObject({ deviceId: 'sb-7', channel: 1 });
    expect(sensor().calibration?.asFound).toEqual([{ indicated: 0.6, reference: 0 }]);
    expect(screen.getByTestId('calibration-offset').textContent).toContain('−0.6');
    expect(parseDocument('sensor', sensor()).ok).toBe(true);
    // From then on it is this device's channel.
    expect(screen.queryByTestId('comparison-2')).toBeNull();
  });

  it('beside a thermometer: what that shows is typed, and a row half filled is not saved', () => {
    const { sensor, read } = bench();
    fireEvent.click(key('compare-in-ice'));
    fireEvent.change(screen.getByTestId('comparison-where'), { target: { value: 'thermometer' } });
    expect(sensor().calibration?.reference).toBe('');
    read(40, () => 12.34);
    fireEvent.click(key('comparison-take-1'));
    expect(sensor().calibration?.asFound[0]?.indicated).toBe(12.34);
    expect(sensor().calibration?.asFound[0]?.reference).toBeNaN();
    expect(parseDocument('sensor', sensor()).ok).toBe(false);
  });

  it('takes what the channel indicates, not what a calibration in force makes of it', () => {
    const { sensor, setSetup, read } = bench();
    const calibration = { offset: -0.5, gain: 1 };
    setSetup({ channels: [{ index: 1, calibration } as unknown as ChannelSetup] } as unknown as Setup);
    fireEvent.click(key('compare-in-ice'));
    read(40, () => 0.1);
    fireEvent.click(key('comparison-take-1'));
    expect(sensor().calibration?.asFound[0]?.indicated).toBeCloseTo(0.6, 9);
  });

  it('nothing of a probe that is lost, or of a device that has fallen silent', () => {
    const { read, silent } = bench();
    fireEvent.click(key('compare-in-ice'));
    read(40, () => 0.6);
    expect(key('comparison-take-1').disabled).toBe(false);
    read(1, () => null);
    expect(screen.queryByTestId('comparison-take-1')).toBeNull();
    // It begins anew.
    read(10, () => 0.6);
    expect(key('comparison-take-1').disabled).toBe(true);
    read(30, () => 0.6);
    expect(key('comparison-take-1').disabled).toBe(false);
    silent(4);
    expect(screen.queryByTestId('comparison-take-1')).toBeNull();
  });

  it('far off is asked about: thermocouples are not, cold water without ice is', () => {
    const { read } = bench();
    fireEvent.click(key('compare-in-ice'));
    read(40, () => 2.4);
    fireEvent.click(key('comparison-take-1'));
    expect(screen.queryByTestId('calibration-far')).toBeNull();
    cleanup();
    const cold = bench();
    fireEvent.click(key('compare-in-ice'));
    cold.read(40, () => 5);
    fireEvent.click(key('comparison-take-1'));
    expect(screen.getByTestId('calibration-far').textContent).toContain('still ice');
  });

  it('nothing of the practice rig, of another device, or of a pressure', () => {
    const rig = bench(PROBE, { kind: 'rig', deviceId: 'RIG-0001' });
    fireEvent.click(key('compare-in-ice'));
    rig.read(40, () => 0.6);
    expect(screen.queryByTestId('comparison-take-1')).toBeNull();
    cleanup();
    const other = bench({ ...PROBE, deviceId: 'sb-9', channel: 1 });
    fireEvent.click(key('compare-in-ice'));
    other.read(40, () => 0.6);
    expect(screen.queryByTestId('comparison-take-1')).toBeNull();
    cleanup();
    bench(blankSensor('Transducer', 'P-1'));
    expect(screen.queryByTestId('compare-in-ice')).toBeNull();
  });
});
