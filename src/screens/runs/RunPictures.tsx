import { Show } from 'solid-js';
import type { Sketch } from '../../evidence/messages.ts';
import { MicroLadderPicture, Sparkline } from '../../widgets/lanes/Micro.tsx';
import { pressure } from '../../words/format.ts';
import { WELCOME } from '../../words/welcome.ts';
import { useServices } from '../context.ts';

/** Ladder and course of a run in small. The room for both is there before they are. */
export function RunPictures(props: { sketch: Sketch | null | undefined }) {
  const app = useServices();
  const label = (s: Sketch) => {
    const peak = pressure(s.numbers.peakBar, app.units());
    return s.limits === null
      ? WELCOME.pictureNoLimit(peak)
      : WELCOME.picture(peak, pressure(s.limits.ratedBar, app.units()));
  };
  return (
    <span class="run-pictures">
      <Show when={props.sketch}>
        {(s) => (
          <>
            <MicroLadderPicture
              ladder={{
                bar: s().numbers.peakBar,
                state: s().numbers.peakBar === null ? 'none' : 'known',
                limits: s().limits,
              }}
              label={label(s())}
            />
            <Sparkline course={s().course} limits={s().limits} />
          </>
        )}
      </Show>
    </span>
  );
}
