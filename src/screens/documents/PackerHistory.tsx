import { For, Show } from 'solid-js';
import type { PackerDocument } from '../../job/packer-document.ts';
import { reviewPacker } from '../../plan/packer-history.ts';
import { duration, NO_VALUE, pressure, pressureRate } from '../../words/format.ts';
import { CYCLES, driftText, PUT_AWAY } from '../../words/history.ts';
import { useServices } from '../context.ts';
import { DriftPlot } from './DriftPlot.tsx';

const SHOWN = 30;

/** A packer's cycles: how many, and whether its leak grows. Packers retire on damage or on a trend. */
export function PackerHistory(props: { packer: PackerDocument }) {
  const app = useServices();
  const history = () => reviewPacker(props.packer);
  const leaks = () =>
    history().logged.flatMap((c) =>
      c.leakMbarPerMin === null
        ? []
        : [{ utcMs: Date.parse(c.date), off: c.leakMbarPerMin, agrees: true, faded: false }],
    );
  const rate = (v: number) => pressureRate(v, app.units());
  // A line that rose a little shows its noise, or air that warmed: no leak is less than none.
  const leak = (v: number) => (v < 0 ? CYCLES.noneSeen : rate(v));
  return (
    <div class="stack" data-testid="packer-history">
      <p>
        <strong>{CYCLES.count(history().cycles)}</strong>{' '}
        <Show when={history().unseen}>
          <span class="wrong-note">{CYCLES.unseen}</span>
        </Show>
      </p>
      <Show when={history().logged.length > 0} fallback={<p class="small muted">{CYCLES.none}</p>}>
        <Show when={leaks().length > 0}>
          <div>
            <h3>{CYCLES.leak}</h3>
            <p class="small" data-testid="drift-leak">
              {driftText(history().leak, rate, CYCLES.noLeak, leak)}
            </p>
            <DriftPlot points={leaks()} limit={null} text={rate} label={CYCLES.plot} />
          </div>
        </Show>
        <div class="table-scroll">
          <table class="budget">
            <thead>
              <tr>
                <th scope="col">{CYCLES.day}</th>
                <th scope="col">{PUT_AWAY.peak}</th>
                <th scope="col">{PUT_AWAY.leak}</th>
                <th scope="col">{PUT_AWAY.inflated}</th>
              </tr>
            </thead>
            <tbody>
              <For each={history().logged.slice(-SHOWN).reverse()}>
                {(c) => (
                  <tr>
                    <th scope="row">
                      <Show when={c.runId} fallback={c.date}>
                        {(runId) => <a href={`#/run/${runId()}`}>{c.date}</a>}
                      </Show>
                    </th>
                    <td>{pressure(c.peakBar, app.units())}</td>
                    <td>{c.leakMbarPerMin === null ? NO_VALUE : leak(c.leakMbarPerMin)}</td>
                    <td>{c.minutes === null ? NO_VALUE : duration(c.minutes * 60)}</td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </Show>
    </div>
  );
}
