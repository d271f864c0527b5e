import { For, Show } from 'solid-js';
import type { SensorDocument } from '../../job/sensor-document.ts';
import type { CalibrationPoint } from '../../job/setup.ts';
import { reviewCalibration } from '../../plan/sensor-review.ts';
import { CALIBRATION, CALIBRATION_REFUSAL } from '../../words/calibration.ts';
import { fixed, NO_VALUE, quantity } from '../../words/format.ts';
import { useServices } from '../context.ts';
import { typedAt } from './form.ts';

/**
 * Line, residuals and drift of a calibration while it is typed. `today` is an ISO date. The line is shown by its
 * corrections at the ends of the range: an offset would be another number in °F, a correction is not.
 */
export function CalibrationFigures(props: { sensor: SensorDocument; today: string }) {
  const app = useServices();
  // A point that is typed half is none yet.
  const typed = (points: readonly CalibrationPoint[]) =>
    points.filter((p) => typedAt(p.indicated) !== null && typedAt(p.reference) !== null);
  const review = () => {
    const { calibration } = props.sensor;
    if (calibration === null) return reviewCalibration(props.sensor, props.today);
    const { asFound, asLeft } = calibration;
    const whole = { ...calibration, asFound: typed(asFound), asLeft: typed(asLeft) };
    return reviewCalibration({ ...props.sensor, calibration: whole }, props.today);
  };
  const isBar = () => props.sensor.quantity === 'pressure';
  const value = (v: number) => quantity(isBar() ? 'pressure' : 'temperature', v, app.units());
  const difference = (v: number) =>
    isBar()
      ? quantity('smallPressure', v * 1000, app.units())
      : quantity('temperatureDifference', v, app.units(), 1);
  const ends = () => [props.sensor.range.lo, props.sensor.range.hi];
  return (
    <Show when={review()}>
      {(r) => (
        <div data-testid="calibration-figures">
          <h3>{CALIBRATION.title}</h3>
          <Show when={r().refusal}>
            {(why) => (
              <p class="field-note wrong-note" role="status" data-testid="calibration-refusal">
                {CALIBRATION_REFUSAL[why()]}
              </p>
            )}
          </Show>
          <Show when={r().fit}>
            {(line) => (
              <>
                <p class="small muted">
                  {props.sensor.calibration?.asLeft.length === 0
                    ? CALIBRATION.asFoundCounts
                    : CALIBRATION.asLeftCounts}
                </p>
                <table class="budget">
                  <thead>
                    <tr>
                      <th scope="col">{CALIBRATION.point}</th>
                      <th scope="col">{CALIBRATION.residual}</th>
                    </tr>
                  </thead>
                  <tbody>
                    <For each={r().points}>
                      {(p, i) => (
                        <tr data-testid={`residual-${i()}`}>
                          <th scope="row">{value(p.reference)}</th>
                          <td>{difference(line().residuals[i()] ?? Number.NaN)}</td>
                        </tr>
                      )}
                    </For>
                  </tbody>
                </table>
                <dl class="facts">
                  <Show
                    when={line().byOffset}
                    fallback={
                      <>
                        <div>
                          <dt>{CALIBRATION.gain}</dt>
                          <dd data-testid="calibration-gain">{fixed(line().gain, 4)}</dd>
                        </div>
                        <For each={ends()}>
                          {(x, i) => (
                            <div>
                              <dt>{CALIBRATION.correction(value(x))}</dt>
                              <dd data-testid={`correction-${i()}`}>
                                {difference(line().offset + (line().gain - 1) * x)}
                              </dd>
                            </div>
                          )}
                        </For>
                      </>
                    }
                  >
                    <div>
                      <dt>{CALIBRATION.offset}</dt>
                      <dd data-testid="calibration-offset">{difference(line().offset)}</dd>
                    </div>
                  </Show>
                  <div>
                    <dt>{CALIBRATION.scatter}</dt>
                    <dd data-testid="calibration-scatter">{difference(line().uResidual)}</dd>
                  </div>
                </dl>
                <Show when={line().assumed}>
                  <p class="small muted" data-testid="calibration-assumed">
                    {line().byOffset ? CALIBRATION.assumedOne : CALIBRATION.assumed}
                  </p>
                </Show>
                <Show when={line().byOffset}>
                  <p class="small muted">{CALIBRATION.byOffset}</p>
                </Show>
                <Show when={line().isFar}>
                  <p class="field-note wrong-note" role="status" data-testid="calibration-far">
                    {CALIBRATION.far}
                  </p>
                </Show>
              </>
            )}
          </Show>
          <Show when={r().drift}>
            {(drift) => (
              <dl class="facts">
                <div>
                  <dt>{CALIBRATION.worstFound}</dt>
                  <dd data-testid="worst-found">{difference(drift().worstFound)}</dd>
                </div>
                <div>
                  <dt>{CALIBRATION.worstLeft}</dt>
                  <dd data-testid="worst-left">{difference(drift().worstLeft)}</dd>
                </div>
                <div>
                  <dt>{CALIBRATION.drift(value(drift().at))}</dt>
                  <dd data-testid="calibration-drift">{difference(drift().drift)}</dd>
                </div>
              </dl>
            )}
          </Show>
          <Show when={r().series.length > 1}>
            <div class="table-scroll">
              <table class="budget" data-testid="calibration-series">
                <thead>
                  <tr>
                    <th scope="col">{CALIBRATION.series}</th>
                    <th scope="col">{CALIBRATION.worstFound}</th>
                    <th scope="col">{CALIBRATION.sinceLast}</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={r().series}>
                    {(step, i) => (
                      <tr>
                        <th scope="row">
                          {step.date} {step.by}
                        </th>
                        <td>{step.worstFound === null ? NO_VALUE : difference(step.worstFound)}</td>
                        <td data-testid={`since-last-${i()}`}>
                          {step.sinceBefore === null ? NO_VALUE : difference(step.sinceBefore)}
                        </td>
                      </tr>
                    )}
                  </For>
                </tbody>
              </table>
            </div>
          </Show>
          <Show when={Number.isFinite(r().daysLeft ?? Number.NaN)}>
            <p class="small" data-testid="calibration-due">
              {CALIBRATION.due(r().daysLeft ?? 0)}
            </p>
          </Show>
        </div>
      )}
    </Show>
  );
}
