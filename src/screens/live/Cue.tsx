import { Show } from 'solid-js';
import { Phrase } from '../../widgets/Phrase.tsx';
import { duration, pressure } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { useServices } from '../context.ts';

/** A hand has this long or less: the count has come to its end, s. */
const NOW_S = 0.5;

/**
 * Help for the hand on the valve, no alarm: the count-down to the working pressure, and the advice to throttle where the
 * rise is too fast for a hand. Both have one place, so that nothing moves when the advice comes.
 */
export function Cue() {
  const { live, units } = useServices();
  const guard = () => (live.silent() ? null : (live.view()?.guard ?? null));
  const closeInS = () => guard()?.closeInS?.value ?? null;
  const late = () => guard()?.tooFast?.lateBar ?? null;
  return (
    <Show when={closeInS() !== null || late() !== null}>
      <p class="cue" data-testid="cue">
        <Show when={late() !== null}>
          <Phrase of={LIVE.tooFast} strong={pressure(late(), units())} />
        </Show>
        <Show when={closeInS() !== null && late() === null}>
          <Show when={(closeInS() ?? 0) >= NOW_S} fallback={<span>{LIVE.closeNow}</span>}>
            <Phrase of={LIVE.closeIn} strong={duration(Math.round(closeInS() ?? 0))} />
          </Show>
        </Show>
      </p>
    </Show>
  );
}
