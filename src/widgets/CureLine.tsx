import { Show } from 'solid-js';
import type { Stage } from '../watch/codes.ts';
import type { Bounded } from '../watch/events.ts';
import type { CureView } from '../watch/view.ts';
import { clockTime, type DisplayUnits, duration, percent, temperature } from '../words/format.ts';
import { CURE, coldestText } from '../words/hold.ts';
import { UI } from '../words/ui.ts';

/** Ends that read the same are no range. */
const range = (low: string, high: string): string => (low === high ? '' : ` (${low} ${UI.to} ${high})`);

/**
 * The cure line: progress of the data sheet's cure time with its lower and upper bound and, where it can be
 * told, the clock time at which the lower bound reaches the end. Forecasts are told from the hold on: while the line is
 * still filled, a sleeve may yet be moved, and a clock time beside 0 % only confuses.
 */
export function CureLine(props: {
  cure: CureView | null;
  hasResin: boolean;
  stage: Stage;
  nowUtcMs: number | null;
  units: DisplayUnits;
}) {
  const end = () => Math.max(1.25, Math.min(3, (props.cure?.high ?? 0) * 1.05));
  const x = (progress: number) => `${(Math.min(end(), Math.max(0, progress)) / end()) * 100}%`;
  const clock = (seconds: number) => clockTime((props.nowUtcMs ?? 0) + seconds * 1000);
  const filling = () => props.stage === 'seat' || props.stage === 'inflate';
  /** Time that runs faster than the clock (practice) has no clock time to name. */
  const when = (s: Bounded) =>
    props.nowUtcMs === null
      ? `${UI.inAbout} ${duration(s.value)}${range(duration(s.low), duration(s.high))}`
      : `${UI.atAbout} ${clock(s.value)}${range(clock(s.low), clock(s.high))}, ${UI.in} ${duration(s.value)}`;
  const headline = () => {
    const cure = props.cure;
    if (cure === null) return props.hasResin ? CURE.notStarted : CURE.noResin;
    if (cure.metAtS !== null || cure.low >= 1) return CURE.met;
    if (filling()) return CURE.notHeld;
    const m = cure.metInS;
    if (m === null) return cure.source === 'none' ? CURE.notKnown : CURE.notMet;
    return `${CURE.willBeMet} ${when(m)}`;
  };
  const exotherm = () => {
    const warmest = filling() ? null : (props.cure?.exotherm ?? null);
    if (warmest === null) return null;
    const c = (value: number) => temperature(value, props.units);
    const { peakC, peakInS } = warmest;
    return `${CURE.exotherm} ${when(peakInS)}: ${c(peakC.value)}${range(c(peakC.low), c(peakC.high))}`;
  };
  return (
    <section class="cure" aria-label={CURE.name} data-testid="cure-line">
      <div class="cure-head">
        <h3>{CURE.name}</h3>
        <p class="cure-when" data-testid="cure-when">
          {headline()}
        </p>
      </div>
      <Show when={props.cure}>
        {(cure) => (
          <>
            <div
              class="cure-track"
              role="progressbar"
              aria-label={CURE.name}
              aria-valuemin={0}
              aria-valuemax={100}
              aria-valuenow={Math.round(Math.min(1, cure().low) * 100)}
              aria-valuetext={`${percent(cure().low)} ${UI.to} ${percent(cure().high)}`}
            >
              <div class="cure-low" style={{ width: x(cure().low) }} />
              <div
                class="cure-between"
                style={{ left: x(cure().low), width: `calc(${x(cure().high)} - ${x(cure().low)})` }}
              />
              <div class="cure-best" style={{ left: x(cure().progress) }} />
              <div class="cure-end" style={{ left: x(1) }}>
                <span>100 %</span>
              </div>
            </div>
            <p class="small muted">
              {percent(cure().progress)} ({CURE.bounds} {percent(cure().low)} {UI.to} {percent(cure().high)}).{' '}
              {coldestText(cure(), props.units)}
            </p>
            <Show when={exotherm()}>
              {(text) => (
                <p class="small muted" data-testid="cure-exotherm">
                  {text()}
                </p>
              )}
            </Show>
          </>
        )}
      </Show>
    </section>
  );
}
