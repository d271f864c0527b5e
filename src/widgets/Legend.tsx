import { createMemo, For } from 'solid-js';
import type { TraceWindow } from '../engine/messages.ts';
import { PLACE_TITLE } from '../words/terms.ts';
import { UI } from '../words/ui.ts';
import { dashOf } from './trace-dashes.ts';

/** Which line is which: told by dash, never by colour alone. */
export function Legend(props: { series: TraceWindow['series'] }) {
  const names = createMemo(
    () =>
      props.series.map((s) =>
        s.name === 'bar'
          ? UI.pressure
          : s.place !== null && Object.hasOwn(PLACE_TITLE, s.place)
            ? PLACE_TITLE[s.place as keyof typeof PLACE_TITLE]
            : UI.temperature,
      ),
    [],
    { equals: (a, b) => a.join() === b.join() },
  );
  return (
    <ul class="legend" aria-label={UI.lines}>
      <For each={names()}>
        {(name, i) => (
          <li classList={{ bar: i() === 0 }}>
            <svg width="28" height="8" aria-hidden="true">
              <path d="M0 4H28" stroke-dasharray={i() === 0 ? undefined : dashOf(i()).join(' ')} />
            </svg>
            {name}
          </li>
        )}
      </For>
    </ul>
  );
}
