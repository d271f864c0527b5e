import { createEffect, createMemo, createSignal, For, on, onCleanup, Show, Suspense } from 'solid-js';
import type { Align, Picture } from '../../evidence/messages.ts';
import { refOf } from '../../evidence/messages.ts';
import { Choice, optionsOf } from '../../widgets/Fields.tsx';
import { pan, type View, zoom } from '../../widgets/trace-view.ts';
import { createWindowSize } from '../../widgets/window-size.ts';
import { ARCHIVE as A } from '../../words/archive.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { screenInk } from '../review/RecordPart.tsx';
import { saveBlob } from '../save.ts';
import { CompareTable } from './CompareTable.tsx';

const RESIZED_MS = 200;
/** Of a window of 320 px, where all else is one column. */
const LEAST_WIDTH = 250;

/** Two or more records in one picture, from the start of the fill or of the hold. */
export function Compare(props: { ids: readonly string[] }) {
  const app = useServices();
  const [align, setAlign] = createSignal<Align>('fill');
  const [view, setView] = createSignal<View | null>(null);
  const [picture, setPicture] = createSignal<Picture | null>(null);
  const whole = createMemo<View>(() => ({
    fromS: picture()?.wholeFromS ?? 0,
    toS: picture()?.wholeToS ?? 1,
  }));
  const size = createWindowSize();
  const [drawing, setDrawing] = createSignal(0);
  let host!: HTMLElement;
  const draw = (): Promise<unknown> => {
    setDrawing((n) => n + 1);
    return app
      .evidence({
        q: 'picture',
        order: {
          refs: props.ids.map(refOf),
          align: align(),
          fromS: view()?.fromS ?? null,
          toS: view()?.toS ?? null,
          width: Math.max(LEAST_WIDTH, host.clientWidth - 34),
          height: Math.min(640, Math.max(360, innerHeight - 360)),
          units: app.units(),
          wording: app.wording,
          ink: screenInk(host),
        },
      })
      .then(setPicture, app.fail)
      .finally(() => setDrawing((n) => n - 1));
  };
  let waits: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(waits));
  createEffect(on([align, view, app.theme, app.units], () => queueMicrotask(() => void draw())));
  // A window that is being drawn wider makes one new picture, at its end.
  createEffect(
    on(
      size,
      () => {
        clearTimeout(waits);
        waits = setTimeout(() => void draw(), RESIZED_MS);
      },
      { defer: true },
    ),
  );
  createEffect(
    on(picture, (made) => {
      if (made === null) return;
      const parsed = new DOMParser().parseFromString(made.svg, 'image/svg+xml');
      host.querySelector('.compare-picture')?.replaceChildren(parsed.documentElement);
    }),
  );
  const step = (f: (v: View) => View) => (): void => {
    setView(f(view() ?? whole()));
  };
  const save = () => {
    const made = picture();
    if (made !== null) saveBlob('overlay.svg', new Blob([made.svg], { type: 'image/svg+xml' }));
  };
  return (
    <div class="page review">
      <header class="row compare-head">
        <h1 class="grow">{A.compareTitle}</h1>
        <Choice
          label={A.align}
          testId="align"
          value={align()}
          options={optionsOf<Align>(A.aligns)}
          onValue={(value) => {
            setView(null);
            setAlign(value);
          }}
        />
      </header>
      <section class="panel stack" ref={host} data-testid="compare" aria-label={A.pictureLabel}>
        <div class="compare-picture" />
        <Show when={drawing() > 0 && picture() === null}>
          <div class="row" role="status">
            <button
              type="button"
              class="button"
              data-testid="cancel-compare"
              onClick={() => void app.evidence({ q: 'cancel' }).catch(app.fail)}
            >
              {UI.cancel}
            </button>
          </div>
        </Show>
        <div class="row no-print plot-buttons">
          <For
            each={[
              [A.closer, step((v) => zoom(v, 0.5, 0.5, whole()))] as const,
              [A.wider, step((v) => zoom(v, 2, 0.5, whole()))] as const,
              [A.earlier, step((v) => pan(v, -0.4, whole()))] as const,
              [A.later, step((v) => pan(v, 0.4, whole()))] as const,
              [A.whole, (): void => void setView(null)] as const,
            ]}
          >
            {([text, act]) => (
              <button type="button" class="button" onClick={() => act()}>
                {text}
              </button>
            )}
          </For>
        </div>
        <Show when={(picture()?.unaligned.length ?? 0) > 0}>
          <p class="note">{A.unaligned((picture()?.unaligned ?? []).map((i) => i + 1).join(', '))}</p>
        </Show>
      </section>
      {/* In a boundary of its own: the picture does not wait for figures that are read from end to end. */}
      <Suspense fallback={<p role="status">{A.readingFigures}</p>}>
        <CompareTable ids={props.ids} />
      </Suspense>
      <div class="row no-print">
        <button type="button" class="button" data-testid="save-overlay" onClick={save}>
          {A.savePicture}
        </button>
        <a class="button quiet" href="#/archive">
          {UI.back}
        </a>
      </div>
    </div>
  );
}
