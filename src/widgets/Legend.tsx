import { createMemo, For } from 'solid-js';
import type { TraceWindow } from '../engine/messages.ts';
import { UI } from '../words/ui.ts';
import { seriesDash, seriesNames } from './series-lines.ts';

/** Which line is which: told by dash and width, never by colour alone. */
export function Legend(props: { series: TraceWindow['series'] }) {
  const lines = createMemo(
    () => {
      const names = seriesNames(props.series);
      return props.series.map((s, i, all) => ({
        kind: s.name,
        name: names[i]!,
        dash: seriesDash(all, i).join(' '),
      }));
    },
    [],
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  return (
    <ul class="legend" aria-label={UI.lines}>
      <For each={lines()}>
        {({ kind, name, dash }) => (
          <li class={kind}>
            <svg width="28" height="8" aria-hidden="true">
              <path d="M0 4H28" stroke-dasharray={dash === '' ? undefined : dash} />
            </svg>
            {name}
          </li>
        )}
      </For>
    </ul>
  );
}
