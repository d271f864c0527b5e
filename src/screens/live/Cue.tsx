import { Show } from 'solid-js';
import { Phrase } from '../../widgets/Phrase.tsx';
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
          <Show when={c().value >= 0.5} fallback={<span>{LIVE.closeNow}</span>}>
            <Phrase of={LIVE.closeIn} strong={duration(Math.round(c().value))} />
          </Show>
        </p>
      )}
    </Show>
  );
}
