import { createSignal, onCleanup, Show } from 'solid-js';
import { UI } from '../words/ui.ts';

/** Longer than any answer of a tablet that works, ms. */
const LATE_MS = 6000;

/** Quiet while data are on their way; says so when they do not come. Nothing of it touches a live run. */
export function Loading(props: { onRetry?: () => void }) {
  const [late, setLate] = createSignal(false);
  const timer = setTimeout(() => setLate(true), LATE_MS);
  onCleanup(() => clearTimeout(timer));
  return (
    <div class="loading" role="status" data-testid="loading">
      <Show when={late()} fallback={<p class="muted">{UI.loading}</p>}>
        <NoAnswer onRetry={props.onRetry} />
      </Show>
    </div>
  );
}

/** Data that could not be had: what to do, never a list that looks empty. */
export function NoAnswer(props: { onRetry?: (() => void) | undefined }) {
  return (
    <div class="stack" data-testid="no-answer">
      <p class="note strong">{UI.noAnswer}</p>
      <div class="row">
        <Show when={props.onRetry}>
          {(retry) => (
            <button type="button" class="button" onClick={() => retry()()}>
              {UI.retry}
            </button>
          )}
        </Show>
        <button type="button" class="button" onClick={() => location.reload()}>
          {UI.reload}
        </button>
      </div>
    </div>
  );
}
