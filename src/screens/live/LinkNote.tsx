import { Show } from 'solid-js';
import { LINK_ERROR } from '../../words/link.ts';
import { useServices } from '../context.ts';

/** What is wrong with the connection and what to do about it, before a run and in it. */
export function LinkNote() {
  const app = useServices();
  return (
    <Show when={app.live.link()?.error}>
      {(error) => (
        <p class="note strong" role="status" data-testid="link-error">
          <strong>{LINK_ERROR[error()].title}.</strong> {LINK_ERROR[error()].todo}
        </p>
      )}
    </Show>
  );
}
