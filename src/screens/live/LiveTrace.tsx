import { createMemo, createSignal, For } from 'solid-js';
import type { TraceWindow } from '../../engine/messages.ts';
import { Legend } from '../../widgets/Legend.tsx';
import { scaleTop } from '../../widgets/ladder-layout.ts';
import { StageRibbon } from '../../widgets/StageRibbon.tsx';
import { alarmMarks, gapSpans, limitSpans } from '../../widgets/spans.ts';
import { Trace } from '../../widgets/Trace.tsx';
import { highestBar, paceOf } from '../../widgets/trace-data.ts';
import type { Decor, LimitSpan } from '../../widgets/trace-paint.ts';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';

const SPANS = [
  { seconds: 60, text: LIVE.spanMinute },
  { seconds: 600, text: LIVE.spanTenMinutes },
  { seconds: 3600, text: LIVE.spanHour },
  { seconds: null, text: LIVE.spanAll },
] as const;

/** Points asked of the buffer: two pixels a bucket on a wide screen is all that the eye can use. */
const POINTS = 900;

export function LiveTrace() {
  const app = useServices();
  const { live } = app;
  const [span, setSpan] = createSignal<number | null>(60);
  const [box, setBox] = createSignal({ left: 52, right: 14 });

  const view = createMemo(() => {
    const s = span();
    const now = Math.max(live.nowS(), 0);
    if (s === null) return { fromS: 0, toS: Math.max(30, now) };
    return { fromS: Math.max(0, now - s), toS: Math.max(s, now) };
  });
  const places = createMemo(
    () => new Map((live.view()?.temps ?? []).map((t) => [t.channel, t.place as string | null])),
    new Map<number, string | null>(),
    { equals: (a, b) => [...a].join() === [...b].join() },
  );
  const window = createMemo<TraceWindow>(() => {
    live.version();
    const v = view();
    return live.buffer.window(v.fromS, v.toS, POINTS, places());
  });
  const firstUs = () => live.view()?.firstUs ?? 0;
  const limits = createMemo<readonly LimitSpan[]>(
    () => {
      const setup = live.setup();
      const recorded = limitSpans(live.events(), setup === null ? [] : [setup], firstUs());
      const now = live.view()?.limits ?? null;
      if (now === null) return [];
      const current: LimitSpan = {
        fromS: recorded[recorded.length - 1]?.fromS ?? 0,
        toS: null,
        ratedBar: now.ratedBar,
        ceilingBar: now.ceilingBar,
        workingBar: now.cue ? now.workingBar : null,
        floorBar: now.floorBar,
      };
      return [...recorded.slice(0, -1), current];
    },
    [],
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const gaps = createMemo(() => gapSpans(live.events(), firstUs()));
  const marks = createMemo(() => alarmMarks(live.events(), firstUs()));
  const practice = createMemo(() => live.link()?.kind === 'rig');
  const decor = createMemo<Decor>(() => ({
    limits: limits(),
    gaps: gaps(),
    marks: marks(),
    practice: practice(),
  }));
  const top = createMemo(() =>
    scaleTop(
      live.view()?.limits?.ratedBar ?? null,
      Math.max(highestBar(window()) ?? 0, live.view()?.bar ?? 0),
    ),
  );
  const pace = createMemo(
    () => paceOf(live.link()?.rateHz ?? null, live.link()?.channels ?? []),
    paceOf(null),
    {
      equals: (a, b) => a.bar === b.bar && a.temperature === b.temperature,
    },
  );

  return (
    <div class="live-plot">
      <StageRibbon
        spans={live.stages()}
        fromS={view().fromS}
        toS={view().toS}
        left={box().left}
        right={box().right}
      />
      <Trace
        window={window()}
        view={view()}
        topBar={top()}
        decor={decor()}
        units={app.units()}
        pace={pace()}
        theme={app.theme()}
        label={LIVE.traceLabel}
        onBox={(left, right) => setBox({ left, right })}
      />
      <div class="plot-foot">
        <Legend series={window().series} />
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
