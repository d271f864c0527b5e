import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import type { SensorCheck, SensorRun } from '../../job/sensor-check.ts';
import { blankSensor } from '../../job/sensor-document.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { SensorHistory } from './SensorHistory.tsx';

afterEach(cleanup);

const sensor = blankSensor('Transducer', 'T-1');
const zero = (off: number, agrees = true): SensorCheck => ({
  what: 'zero',
  serial: 'T-1',
  channel: 0,
  off,
  agrees,
});
const job = (day: number, checks: readonly SensorCheck[]): SensorRun => ({
  runId: `run-${day}`,
  title: `Job of day ${day}`,
  practice: false,
  utcMs: Date.parse('2026-03-01') + day * 86_400_000,
  checks,
});

function show(first: readonly SensorRun[]) {
  const [runs, setRuns] = createSignal(first);
  const services = { units: () => METRIC, settings: defaultSettings, sensorRuns: runs };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <SensorHistory sensor={sensor} />
    </ServicesContext.Provider>
  ));
  return setRuns;
}

it('says that no job has checked it, and fills as jobs do', () => {
  const setRuns = show([]);
  expect(screen.getByTestId('history-none')).toBeTruthy();
  setRuns([job(1, [zero(0.002)])]);
  expect(screen.getByTestId('drift-zero').textContent).toBe(
    '2.0\u00a0mbar in one job. A pace is told from four jobs on.',
  );
});

it('tells the pace, the days left, and what was refused; newest job first', () => {
  // 1 mbar a day; the zero of a 4 bar sensor goes no further than 40 mbar.
  show([0, 10, 20, 30].map((d) => job(d, [zero(d / 1000)])));
  const text = screen.getByTestId('drift-zero').textContent ?? '';
  expect(text).toContain('30.0\u00a0mbar in 30 days');
  expect(text).toContain('about 10 days');
  const rows = screen.getAllByTestId(/^history-run-/).map((r) => r.dataset.testid);
  expect(rows).toEqual(['history-run-30', 'history-run-20', 'history-run-10', 'history-run-0']);
});

it('a refused zero is a cross and a word', () => {
  show([job(0, [zero(0.001)]), job(1, [zero(0.09, false)])]);
  expect(screen.getAllByTestId('drift-cross')).toHaveLength(1);
  expect(screen.getByTestId('history-run-1').textContent).toContain('refused');
});
