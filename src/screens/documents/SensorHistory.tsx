import { For, Show } from 'solid-js';
import { dialGaugeU, USUAL_GAUGE_U_BAR } from '../../job/dial-gauge.ts';
import type { SensorCheck } from '../../job/sensor-check.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';
import { type HistoryRow, reviewHistory } from '../../plan/sensor-history.ts';
import { day, NO_VALUE, quantity } from '../../words/format.ts';
import { driftText, HISTORY } from '../../words/history.ts';
import { useServices } from '../context.ts';
import { DriftPlot } from './DriftPlot.tsx';

const SHOWN = 30;

/** What the sensor showed in its jobs: zeros, comparisons with the dial gauge, warmings in the hand. */
export function SensorHistory(props: { sensor: SensorDocument }) {
  const app = useServices();
  const gaugeUBar = () => {
    const gauge = app.settings().dialGauge;
    return gauge === undefined ? USUAL_GAUGE_U_BAR : dialGaugeU(gauge);
  };
  const history = () => reviewHistory(props.sensor, app.sensorRuns(), gaugeUBar());
  const isBar = () => props.sensor.quantity === 'pressure';
  const difference = (v: number) =>
    isBar()
      ? quantity('smallPressure', v * 1000, app.units())
      : quantity('temperatureDifference', v, app.units(), 1);
  const cell = (check: SensorCheck | null) =>
    check === null ? (
      NO_VALUE
    ) : (
      <>
        {difference(check.off)}
        <Show when={!check.agrees}>
          {' '}
          <strong class="wrong-note">{check.what === 'zero' ? HISTORY.refused : HISTORY.differed}</strong>
        </Show>
      </>
    );
  const points = (what: 'zero' | 'gauge' | 'warm') =>
    history().rows.flatMap((r: HistoryRow) => {
      const check = r[what];
      return check === null
        ? []
        : [{ utcMs: r.utcMs, off: check.off, agrees: check.agrees, faded: r.beforeCalibration }];
    });
  const kinds = () =>
    isBar()
      ? [
          {
            what: 'zero',
            title: HISTORY.zero,
            drift: history().zero,
            limit: history().zeroLimitBar,
          } as const,
          { what: 'gauge', title: HISTORY.gauge, drift: history().gauge, limit: gaugeUBar() } as const,
        ]
      : [{ what: 'warm', title: HISTORY.warm, drift: history().warm, limit: null } as const];
  return (
    <Show
      when={history().rows.length > 0}
      fallback={
        <p class="small muted" data-testid="history-none">
          {HISTORY.none}
        </p>
      }
    >
      <div class="stack" data-testid="sensor-history">
        <For each={kinds()}>
          {(k) => (
            <Show when={points(k.what).length > 0}>
              <div>
                <h3>{k.title}</h3>
                <p class="small" data-testid={`drift-${k.what}`}>
                  {driftText(k.drift, difference)}
                </p>
                <DriftPlot
                  points={points(k.what)}
                  limit={k.limit}
                  text={difference}
                  label={HISTORY.plot(k.title)}
                />
              </div>
            </Show>
          )}
        </For>
        <div class="table-scroll">
          <table class="budget">
            <thead>
              <tr>
                <th scope="col">{HISTORY.job}</th>
                <For each={kinds()}>{(k) => <th scope="col">{k.title}</th>}</For>
              </tr>
            </thead>
            <tbody>
              <For each={history().rows.slice(-SHOWN).reverse()}>
                {(r) => (
                  <tr data-testid={`history-${r.runId}`}>
                    <th scope="row">
                      <a href={`#/run/${r.runId}`}>{day(r.utcMs)}</a> {r.title}
                      <Show when={r.beforeCalibration}>
                        {' '}
                        <span class="muted">{HISTORY.before}</span>
                      </Show>
                    </th>
                    <For each={kinds()}>{(k) => <td>{cell(r[k.what])}</td>}</For>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
        <Show when={history().rows.length > SHOWN}>
          <p class="small muted">{HISTORY.more(history().rows.length - SHOWN)}</p>
        </Show>
      </div>
    </Show>
  );
}
