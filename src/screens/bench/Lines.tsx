import { For, Show } from 'solid-js';
import { lineText } from '../../bench/line-text.ts';
import type { HeardLine } from '../../link/line-log.ts';
import { BENCH, REFUSED } from '../../words/bench.ts';

/** The newest lines as they came, refused ones with the reason in words. */
export function Lines(props: { lines: readonly HeardLine[]; open: boolean }) {
  return (
    <details class="panel" open={props.open} data-testid="bench-lines">
      <summary>{BENCH.lines}</summary>
      <p class="small muted">{BENCH.linesText}</p>
      <Show when={props.lines.length > 0} fallback={<p>{BENCH.noLines}</p>}>
        <ol class="bench-lines">
          <For each={props.lines}>
            {(line) => (
              <li>
                <code class="stray-line">{lineText(line)}</code>{' '}
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
