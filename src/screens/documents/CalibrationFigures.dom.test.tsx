import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import { blankSensor, type SensorCalibration, type SensorDocument } from '../../job/sensor-document.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { CalibrationFigures } from './CalibrationFigures.tsx';

afterEach(cleanup);

const point = (indicated: number, reference: number) => ({ indicated, reference });
const CALIBRATED: SensorCalibration = {
  date: '2026-02-01',
  asFound: [point(0.02, 0), point(2.02, 2), point(4.02, 4)],
  asLeft: [point(0, 0), point(2.003, 2), point(4, 4)],
  uReference: 0.001,
  reference: '',
  by: '',
};
const sensorWith = (part: Partial<SensorCalibration>): SensorDocument => ({
  ...blankSensor('P', '1'),
  calibration: { ...CALIBRATED, ...part },
});

function show(first: SensorDocument) {
  const [sensor, setSensor] = createSignal(first);
  render(() => (
    <ServicesContext.Provider value={{ units: () => METRIC } as unknown as Services}>
      <CalibrationFigures sensor={sensor()} today="2026-02-11" />
    </ServicesContext.Provider>
  ));
  return setSensor;
}
const text = (id: string) => screen.getByTestId(id).textContent;

it('shows line, residuals and drift of the points by hand calculation', () => {
  show(sensorWith({}));
  // Symmetric about the middle: gain 1, offset −1 mbar, residuals +1, −2, +1 mbar, s = √6 mbar with one degree left.
  expect(text('calibration-gain')).toBe('1.0000');
  expect(text('correction-0')).toBe('−1.0\u00a0mbar');
  expect(text('residual-0')).toContain('1.0\u00a0mbar');
  expect(text('residual-1')).toContain('−2.0\u00a0mbar');
  expect(text('calibration-scatter')).toBe('2.4\u00a0mbar');
  // As found 20 mbar high all over; the line as left is 1 mbar high: 19 mbar were taken away.
  expect(text('worst-found')).toBe('20.0\u00a0mbar');
  expect(text('worst-left')).toBe('3.0\u00a0mbar');
  expect(text('calibration-drift')).toBe('19.0\u00a0mbar');
  expect(text('calibration-due')).toContain('355');
});

it('follows the typing: refused points show no line, two points say that the scatter is assumed', () => {
  const set = show(sensorWith({ asFound: [], asLeft: [] }));
  expect(text('calibration-refusal')).toContain('two points');
  expect(screen.queryByTestId('calibration-gain')).toBeNull();
  // psi taken for bar.
  set(sensorWith({ asFound: [point(0, 0), point(58, 4)], asLeft: [] }));
  expect(text('calibration-refusal')).toContain('slope');
  expect(screen.queryByTestId('calibration-gain')).toBeNull();
  set(sensorWith({ asFound: [point(0, 0), point(4, 4)], asLeft: [] }));
  expect(screen.queryByTestId('calibration-refusal')).toBeNull();
  expect(screen.getByTestId('calibration-assumed')).toBeTruthy();
  expect(text('calibration-drift')).toBe('0.0\u00a0mbar');
});

it('says what moved since the calibration before, and nothing of a sensor without one', () => {
  const set = show({ ...sensorWith({}), earlier: [{ ...CALIBRATED, asLeft: [point(0, 0), point(4, 4)] }] });
  expect(text('since-last-0')).toBe('20.0\u00a0mbar');
  set(blankSensor('P', '1'));
  expect(screen.queryByTestId('calibration-figures')).toBeNull();
});
