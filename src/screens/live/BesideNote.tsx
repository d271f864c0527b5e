import { For, Show } from 'solid-js';
import { isWanted } from '../../link/status.ts';
import { BESIDE, BESIDE_ERROR, BESIDE_LOST } from '../../words/beside.ts';
import { LINK_ERROR } from '../../words/link.ts';
import { doubtText } from '../../words/sources.ts';
import { useServices } from '../context.ts';

/** What is wrong with the second adapter, and what speaks against its newest values. */
export function BesideNote() {
  const app = useServices();
  const beside = () => app.live.link()?.beside ?? null;
  const advice = () => {
    const link = beside();
    if (link === null || !isWanted(link.state)) return null;
    if (link.error !== null) {
      const { title, todo } = LINK_ERROR[link.error];
      return BESIDE_ERROR[link.error] ?? { title: BESIDE.doubt(title), todo };
    }
    return link.state === 'streaming' ? null : BESIDE_LOST;
  };
  return (
    <>
      <Show when={advice()}>
        {(a) => (
          <p class="note strong" role="status" data-testid="beside-error">
            <strong>{a().title}.</strong> {a().todo}
          </p>
        )}
      </Show>
      <For each={beside()?.doubts ?? []}>
        {(doubt) => (
          <p class="note strong" role="status" data-testid="beside-doubt">
            {BESIDE.doubt(doubtText(doubt.channel + 1, doubt.code, doubt.value))}
          </p>
        )}
      </For>
    </>
  );
}
