import { For, Show } from 'solid-js';
import { LACKS_OF } from '../../link/maps/lacks.ts';
import { fixed } from '../../words/format.ts';
import { doubtText, LACK, reachedRate, SOURCE } from '../../words/sources.ts';
import { useServices } from '../context.ts';

/** All along: what a source lacks that does not speak the device protocol, and what speaks against its newest values. */
export function SourceNote() {
  const app = useServices();
  return (
    <Show when={app.live.link()?.map}>
      {(map) => (
        <>
          <details class="note" data-testid="source-note" data-map={map().is}>
            <summary>{SOURCE[map().is].title}</summary>
            <ul class="stack small">
              <For each={LACKS_OF[map().is]}>{(lack) => <li>{LACK[lack]}</li>}</For>
              <Show when={map().is === 'registers' && app.live.link()?.rateHz}>
                {(hz) => <li>{reachedRate(fixed(hz(), 0))}</li>}
              </Show>
              <li>{SOURCE[map().is].way}</li>
            </ul>
          </details>
          <For each={app.live.link()?.doubts ?? []}>
            {(doubt) => (
              <p class="note strong" role="status" data-testid="source-doubt">
                {doubtText(doubt.channel + 1, doubt.code, doubt.value)}
              </p>
            )}
          </For>
        </>
      )}
    </Show>
  );
}
