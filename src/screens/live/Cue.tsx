import { Show } from 'solid-js';
import { duration } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';

/** The count-down to the working pressure: help for the hand on the valve, no alarm. */
export function Cue() {
  const { live } = useServices();
  const cue = () => (live.silent() ? null : (live.view()?.guard.closeInS ?? null));
  return (
    <Show when={cue()}>
      {(c) => (
        <p class="cue" data-testid="cue">
          <span>{c().value < 0.5 ? LIVE.closeNow : LIVE.closeIn}</span>
          <Show when={c().value >= 0.5}>
            <strong>{duration(Math.round(c().value))}</strong>
          </Show>
        </p>
      )}
    </Show>
  );
}
