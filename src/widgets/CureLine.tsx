import { Show } from 'solid-js';
import type { Stage } from '../watch/codes.ts';
import type { Bounded } from '../watch/events.ts';
import type { CureView } from '../watch/view.ts';
import { clockTime, type DisplayUnits, duration, percent, temperature } from '../words/format.ts';
import { CURE, coldestText } from '../words/hold.ts';

/**
 * The cure line: progress of the data sheet's cure time with its lower and upper bound and, where it can be
 * told, the clock time at which the lower bound reaches the end. Forecasts are told from the hold on: while the line is
 * still filled, a sleeve may yet be moved, and a clock time beside 0 % only confuses.
 */
export function CureLine(props: {
  cure: CureView | null;
  hasResin: boolean;
  /** Light makes it hard: nothing is judged. */
  isLightCured: boolean;
  stage: Stage;
  nowUtcMs: number | null;
  units: DisplayUnits;
}) {
  const end = () => Math.max(1.25, Math.min(3, (props.cure?.high ?? 0) * 1.05));
  const x = (progress: number) => `${(Math.min(end(), Math.max(0, progress)) / end()) * 100}%`;
  const clock = (seconds: number) => clockTime((props.nowUtcMs ?? 0) + seconds * 1000);
  const filling = () => props.stage === 'seat' || props.stage === 'inflate';
  const ends = (s: Bounded, show: (value: number) => string) => ({
    value: show(s.value),
    low: show(s.low),
    high: show(s.high),
  });
  const met = () => props.cure !== null && (props.cure.metAtS !== null || props.cure.low >= 1);
  const headline = () => {
    const cure = props.cure;
    if (props.isLightCured) return CURE.notJudged;
    if (cure === null) return props.hasResin ? CURE.notStarted : CURE.noResin;
    if (met()) return CURE.met;
    if (filling()) return CURE.notHeld;
    const m = cure.metInS;
    if (m === null) return cure.source === 'none' ? CURE.notKnown : CURE.notMet;
    // Time that runs faster than the clock (practice) has no clock time to name.
    return props.nowUtcMs === null
      ? CURE.willBeMetIn(ends(m, duration))
      : CURE.willBeMetAt(ends(m, clock), duration(m.value));
  };
  const exotherm = () => {
    const warmest = filling() ? null : (props.cure?.exotherm ?? null);
    if (warmest === null) return null;
    const { peakC, peakInS } = warmest;
    const peak = ends(peakC, (value) => temperature(value, props.units));
    return props.nowUtcMs === null
      ? CURE.exothermIn(ends(peakInS, duration), peak)
      : CURE.exothermAt(ends(peakInS, clock), duration(peakInS.value), peak);
  };
  return (
    <section class="cure" classList={{ met: met() }} aria-label={CURE.name} data-testid="cure-line">
      <div class="cure-head">
        <h3>{CURE.name}</h3>
        <p class="cure-when" data-testid="cure-when" data-met={met()} role="status">
          <Show when={met()}>
            <svg class="cure-mark" viewBox="0 0 24 24" aria-hidden="true">
              <circle cx="12" cy="12" r="10.500" fill="none" stroke="currentColor" stroke-width="2" />
              <path d="M6.500 12.500l4 4 7-8" fill="none" stroke="currentColor" stroke-width="3" />
            </svg>
          </Show>
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
              aria-valuetext={CURE.between(percent(cure().low), percent(cure().high))}
            >
              <div class="cure-low" style={{ width: x(cure().low) }} />
              <div
                class="cure-between"
                style={{ left: x(cure().low), width: `calc(${x(cure().high)} - ${x(cure().low)})` }}
              />
              <div
                class="cure-best"
                style={{ left: x(met() ? cure().progress : Math.min(1, cure().progress)) }}
              />
              <div class="cure-end" style={{ left: x(1) }}>
                <span>{percent(1)}</span>
              </div>
            </div>
            <p class="small muted">
              {/* A likely count over the end is no cure time met: then the cautious one alone is a number. */}
              {!met() && Math.round(cure().progress * 100) >= 100
                ? CURE.progressOver(percent(Math.min(0.99, cure().low)))
                : CURE.progress({
                    value: percent(cure().progress),
                    low: percent(cure().low),
                    high: percent(cure().high),
                  })}{' '}
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
