import { createMemo, For, Show } from 'solid-js';
import type { Stage } from '../../watch/codes.ts';
import { toldApart } from '../../widgets/told-apart.ts';
import { duration, fixed, NO_VALUE, pressure, pressureSlope, temperature } from '../../words/format.ts';
import { bandExitText, leakText, liftText } from '../../words/hold.ts';
import { LANES } from '../../words/lanes.ts';
import { LIVE } from '../../words/live.ts';
import { TIME_SLOT } from '../../words/orders.ts';
import { PAIR_PATH, SUPPLY } from '../../words/supply.ts';
import { PLACE_TITLE, STANDING } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { bandExitShown, liftShown } from './forecasts.ts';

/**
 * What is told in a stage. Once the sleeve is held the pot life has no more to say; the slope is of use while a hand is
 * at a valve, at rest it is only noise.
 */
const TOLD: Readonly<Record<Stage, { readonly potLife: boolean; readonly slope: boolean }>> = {
  prepare: { potLife: true, slope: false },
  seat: { potLife: true, slope: true },
  inflate: { potLife: true, slope: true },
  hold: { potLife: false, slope: false },
  'let-down': { potLife: false, slope: true },
  done: { potLife: false, slope: false },
  'air-test': { potLife: false, slope: true },
  abandoned: { potLife: false, slope: false },
};

/** The numbers beside the big one: hold, leak, lift, temperatures, pot life. Only what is known is shown. */
export function Facts() {
  const app = useServices();
  const { live } = app;
  const tempNames = createMemo(() =>
    toldApart(
      (live.view()?.temps ?? []).map((t) => (t.place === null ? UI.temperature : PLACE_TITLE[t.place])),
    ),
  );
  const tempName = (i: number): string => tempNames()[i] ?? UI.temperature;
  const hold = () => live.view()?.hold ?? null;
  const lift = () => {
    const h = hold();
    return h === null ? null : liftShown(h);
  };
  const exit = () => {
    const h = hold();
    return h === null ? null : bandExitShown(h, live.view()?.limits?.ceilingBar ?? null);
  };
  const guard = () => live.view()?.guard ?? null;
  const rate = () => {
    const r = guard()?.rateBarPerS ?? null;
    return r === null ? NO_VALUE : pressureSlope(r, app.units());
  };
  const standing = createMemo(() => (live.view()?.standing ?? []).filter((c) => c !== 'practice'), [], {
    equals: (a, b) => a.join() === b.join(),
  });
  const told = () => TOLD[live.view()?.stage ?? 'prepare'];
  return (
    <div class="stack">
      <Show when={lift()}>{(l) => <p class="note strong">{liftText(l(), app.units())}</p>}</Show>
      <Show when={exit()}>
        {(e) => <p class="note strong">{bandExitText(e(), hold()?.leak.verdict ?? 'cannot-tell')}</p>}
      </Show>
      <For each={standing()}>{(code) => <p class="note small">{STANDING[code].means}</p>}</For>
      <dl class="facts">
        <Show when={hold()}>
          {(h) => (
            <>
              <Fact name={LIVE.minutesInBand} testId="minutes-in-band">
                {`${fixed(h().minutesInBand, h().minutesInBand < 10 ? 1 : 0)}\u00a0min`}
              </Fact>
              <Fact name={LIVE.leak} testId="hold-leak" wide>
                {leakText(h().leak, app.units())}
              </Fact>
              <Fact name={LIVE.lowest}>{pressure(h().minBar, app.units())}</Fact>
              <Fact name={LIVE.highest}>{pressure(h().maxBar, app.units())}</Fact>
            </>
          )}
        </Show>
        <Show when={guard()?.settleBar}>
          {(s) => (
            <Fact name={LIVE.settle} testId="settle">
              {LIVE.within(
                pressure(s().value, app.units()),
                pressure(s().low, app.units()),
                pressure(s().high, app.units()),
              )}
            </Fact>
          )}
        </Show>
        <Show when={guard()?.restBar}>
          {(r) => <Fact name={LIVE.rest}>{pressure(r().value, app.units())}</Fact>}
        </Show>
        <Show when={live.view()?.second}>
          {(s) => (
            <>
              <Fact name={LANES.second[s().role]} testId="second-pressure">
                {s().bar === null ? UI.lostReading : pressure(s().bar, app.units())}
              </Fact>
              <Show when={s().stoodBar !== null}>
                <Fact name={SUPPLY.stoodAt}>{pressure(s().stoodBar, app.units())}</Fact>
              </Show>
              <Show when={s().path}>
                {(path) => (
                  <Fact name={SUPPLY.path} testId="pair-path" wide>
                    {PAIR_PATH[path()]}
                  </Fact>
                )}
              </Show>
            </>
          )}
        </Show>
        <Show when={told().slope}>
          <Fact name={LIVE.rate}>{rate()}</Fact>
        </Show>
        <Fact name={LIVE.peak} testId="peak">
          {pressure(live.view()?.peakBar, app.units())}
        </Fact>
        <Show when={told().potLife && live.view()?.potLifeLeftS != null}>
          <Fact name={TIME_SLOT['pot-life']} testId="pot-life">
            {duration(live.view()?.potLifeLeftS)}
          </Fact>
        </Show>
        <For each={live.view()?.temps ?? []}>
          {(t, i) => (
            <Fact name={tempName(i())}>{t.c === null ? UI.lostReading : temperature(t.c, app.units())}</Fact>
          )}
        </For>
      </dl>
    </div>
  );
}

function Fact(props: { name: string; children: string; testId?: string; wide?: boolean }) {
  return (
    <div classList={{ 'fact-wide': props.wide ?? false }}>
      <dt>{props.name}</dt>
      <dd data-testid={props.testId}>{props.children}</dd>
    </div>
  );
}
