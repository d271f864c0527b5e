import { For, Show } from 'solid-js';
import { lineText } from '../../bench/line-text.ts';
import type { HeardLine } from '../../link/line-log.ts';
import { BENCH, REFUSED } from '../../words/bench.ts';
import { useServices } from '../context.ts';

/** The newest lines as they came, refused ones with the reason in words. */
export function Lines(props: { lines: readonly HeardLine[]; open: boolean }) {
  const app = useServices();
  return (
    <details class="panel" open={props.open} data-testid="bench-lines">
      <summary>{BENCH.lines}</summary>
      <p class="small muted">{BENCH.linesText}</p>
      <Show when={app.live.link()?.map != null}>
        <p class="small">{BENCH.linesMade}</p>
      </Show>
      <Show when={props.lines.length > 0} fallback={<p>{BENCH.noLines}</p>}>
        <ol class="bench-lines">
          <For each={props.lines}>
            {(line) => (
              <li>
                <code class="stray-line" translate="no">
                  {lineText(line)}
                </code>{' '}
                <span class="small" classList={{ muted: 'frame' in line }}>
                  {'frame' in line ? BENCH.read : REFUSED[line.stray]}
                  {'frame' in line || line.baudRate === null ? '' : ` (${BENCH.baud(line.baudRate)})`}
                </span>
              </li>
            )}
          </For>
        </ol>
      </Show>
    </details>
  );
}
