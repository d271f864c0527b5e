import { createSignal, For, onCleanup, Show } from 'solid-js';
import { compareSpan, guardLimit, sayHeard, tryGuard, tryWarm, tryZero } from '../../bench/bench.ts';
import { isArmed } from '../../bench/guard-try.ts';
import { GUARD_BAR } from '../../bench/limits.ts';
import type { GuardVerb } from '../../engine/messages.ts';
import { dialGaugeU, USUAL_GAUGE_U_BAR } from '../../job/dial-gauge.ts';
import type { Place } from '../../job/setup.ts';
import { NumberField } from '../../widgets/NumberField.tsx';
import { BENCH, POINT } from '../../words/bench.ts';

import { pressure } from '../../words/format.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';
import type { BenchState } from './state.ts';

/** What a hand has to do: zero, reference, warm hand, the device's own alarm. */
export function Tries(props: { state: BenchState }) {
  const app = useServices();
  const [reference, setReference] = createSignal<number | null>(null);
  const uReference = () => {
    const gauge = app.settings().dialGauge;
    return gauge === undefined ? USUAL_GAUGE_U_BAR : dialGaugeU(gauge);
  };
  const compare = () => {
    const bar = reference();
    if (bar !== null) props.state.change((b) => compareSpan(b, bar, uReference()));
  };
  const probes = () =>
    (props.state.bench().intake.setup?.channels ?? []).filter((c) => c.role === 'temperature');
  const placeOf = (place: Place | null) => (place === null ? null : PLACE[place]);
  return (
    <section class="bench-tries" aria-label={BENCH.tries}>
      <h2>{BENCH.tries}</h2>
      <div class="panel stack">
        <h3>{POINT.zero}</h3>
        <p class="small">{BENCH.zeroText}</p>
        <button
          type="button"
          class="button"
          data-testid="bench-zero"
          onClick={() => props.state.change(tryZero)}
        >
          {BENCH.zero}
        </button>
      </div>
      <div class="panel stack">
        <h3>{POINT.span}</h3>
        <p class="small">{BENCH.spanText}</p>
        <NumberField
          label={BENCH.reference}
          rules={{ kind: 'pressure', lo: 0, hi: 100 }}
          units={app.units()}
          value={reference()}
          onValue={setReference}
          testId="bench-reference"
        />
        <button
          type="button"
          class="button"
          data-testid="bench-compare"
          disabled={reference() === null}
          onClick={compare}
        >
          {BENCH.compare}
        </button>
      </div>
      <Show when={probes().length > 0}>
        <div class="panel stack">
          <h3>{POINT.warm}</h3>
          <p class="small">{BENCH.warmText}</p>
          <For each={probes()}>
            {(c) => (
              <button
                type="button"
                class="button"
                data-testid={`bench-warm-${c.index}`}
                onClick={() => props.state.change((b) => tryWarm(b, c.index))}
              >
                {BENCH.warm(c.index, placeOf(c.place))}
              </button>
            )}
          </For>
          <Show when={app.live.rig() !== null}>
            <HoldPractice />
          </Show>
        </div>
      </Show>
      <GuardPanel state={props.state} />
    </section>
  );
}

/** The practice rig's probes have no hand of their own. */
function HoldPractice() {
  const app = useServices();
  const [held, setHeld] = createSignal(false);
  const hold = () => {
    const next = !held();
    app.ask({ q: 'rig-hand', hand: { hand: 'warm', held: next } }).then(() => setHeld(next), app.fail);
  };
  return (
    <button type="button" class="button practice-edge" data-testid="bench-hold" onClick={hold}>
      {held() ? BENCH.warmPracticeEnd : BENCH.warmPractice}
    </button>
  );
}

/** Armed low, pumped over by hand: does it trip, and was it heard? What the device kept before is put back. */
function GuardPanel(props: { state: BenchState }) {
  const app = useServices();
  const [before, setBefore] = createSignal<GuardVerb | null>(null);
  const [busy, setBusy] = createSignal(false);
  const limit = () => pressure(GUARD_BAR, app.units());
  const tried = () => props.state.bench().guard;
  const asks = () => {
    const g = tried();
    return g !== null && g.tripBar !== null && g.sounds && g.heard === null;
  };
  const kept = (): GuardVerb => {
    const g = app.live.link()?.deviceGuard ?? null;
    if (g === null || g.channel === null || g.limitCounts === null || g.limitMbar === null)
      return { verb: 'disarm' };
    return { verb: 'limit', channel: g.channel, counts: g.limitCounts, mbar: g.limitMbar };
  };
  const during = async (work: () => Promise<void>) => {
    setBusy(true);
    await work().catch(app.fail);
    setBusy(false);
  };
  const arm = () =>
    during(async () => {
      // A bus or a plain line has no guard, and is not asked for one.
      if (app.live.link()?.map != null) {
        props.state.change((b) => tryGuard(b, 'unknown', 0));
        return;
      }
      const at = guardLimit(props.state.bench());
      if (at === null) {
        props.state.change((b) => tryGuard(b, 'range', 0));
        return;
      }
      // Tried again before it was put back: what was kept before the first try counts.
      const was = before() ?? kept();
      const verb: GuardVerb = { verb: 'limit', ...at, mbar: GUARD_BAR * 1000 };
      const { result } = await app.ask({ q: 'bench-guard', verb });
      props.state.change((b) => tryGuard(b, result, at.counts));
      if (result === 'ok') setBefore(was);
    });
  const end = async (): Promise<void> => {
    const verb = before();
    if (verb === null) return;
    const { result } = await app.ask({ q: 'bench-guard', verb });
    if (result === 'ok') setBefore(null);
    app.say(result === 'ok' ? BENCH.taken : BENCH.stillArmed(limit()));
  };
  // A limit of this test is not left behind where the device lets it go; a run sets its own.
  onCleanup(() => void end().catch(() => undefined));
  return (
    <div class="panel stack" data-testid="bench-guard">
      <h3>{POINT.guard}</h3>
      <p class="small">{BENCH.guardText(limit())}</p>
      <button
        type="button"
        class="button"
        data-testid="bench-arm"
        disabled={busy()}
        onClick={() => void arm()}
      >
        {BENCH.arm(limit())}
      </button>
      <Show when={isArmed(tried())}>
        <p class="note strong" role="status">
          {BENCH.pump}
        </p>
      </Show>
      <Show when={asks()}>
        <p class="strong" role="status">
          {BENCH.heardAsk}
        </p>
        <div class="row">
          <button
            type="button"
            class="button grow"
            data-testid="bench-heard"
            onClick={() => props.state.change((b) => sayHeard(b, true))}
          >
            {BENCH.heard}
          </button>
          <button
            type="button"
            class="button grow"
            data-testid="bench-not-heard"
            onClick={() => props.state.change((b) => sayHeard(b, false))}
          >
            {BENCH.notHeard}
          </button>
        </div>
      </Show>
      <Show when={before()}>
        {(verb) => (
          <button
            type="button"
            class="button"
            data-testid="bench-disarm"
            disabled={busy()}
            onClick={() => void during(end)}
          >
            {verb().verb === 'disarm' ? BENCH.takeAway : BENCH.putBack}
          </button>
        )}
      </Show>
    </div>
  );
}
