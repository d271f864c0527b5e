import { createSignal, For, Show } from 'solid-js';
import type { SpanChoice } from '../../widgets/lanes/spans-shown.ts';
import { createSize } from '../../widgets/size.ts';
import { LIVE } from '../../words/live.ts';
import { LiveLanes } from './LiveLanes.tsx';

const SPANS = [
  { seconds: 60, text: LIVE.spanMinute },
  { seconds: 600, text: LIVE.spanTenMinutes },
  { seconds: 3600, text: LIVE.spanHour },
  { seconds: 'all', text: LIVE.spanAll },
] as const;

/** The lanes in whatever room a page has, with their span chosen by hand. */
export function LiveTrace() {
  const [span, setSpan] = createSignal<SpanChoice>(60);
  const size = createSize();
  const small = () => size.width() < 520 || size.height() < 300;
  return (
    <div class="live-plot">
      <div class="trace" ref={size.ref}>
        <Show when={size.width() > 200 && size.height() > 120}>
          <LiveLanes
            span={span()}
            size={{
              w: size.width(),
              h: size.height(),
              ladderW: small() ? 158 : 240,
              ribbonH: small() ? 24 : 34,
              tempH: Math.round(size.height() * 0.17),
              axisH: small() ? 16 : 22,
              small: small(),
            }}
          />
        </Show>
      </div>
      <div class="plot-foot">
        <fieldset class="segments">
          <legend class="visually-hidden">{LIVE.span}</legend>
          <For each={SPANS}>
            {(s) => (
              <button
                type="button"
                class="segment"
                aria-pressed={span() === s.seconds}
                onClick={() => setSpan(s.seconds)}
              >
                {s.text}
              </button>
            )}
          </For>
        </fieldset>
      </div>
    </div>
  );
}
