import { Show } from 'solid-js';
import { SOUND_TEST } from '../../words/sound.ts';
import { useServices } from '../context.ts';

/** Once a day, before air goes in: the alarm is played, and the crew says whether it was heard where they stand. */
export function SoundTest() {
  const { sound } = useServices();
  return (
    <fieldset class="task" data-testid="sound-test">
      <legend>{SOUND_TEST.title}</legend>
      <Show
        when={sound.test() !== 'heard'}
        fallback={
          <p class="small muted" data-testid="sound-heard-today">
            {SOUND_TEST.heardToday}
          </p>
        }
      >
        <p class="small">{SOUND_TEST.text}</p>
        <div class="row">
          <button
            type="button"
            class="button grow"
            data-testid="sound-play"
            onClick={() => sound.play('urgent')}
          >
            {SOUND_TEST.play}
          </button>
          <button
            type="button"
            class="button grow"
            data-testid="sound-heard"
            onClick={() => sound.answer('heard')}
          >
            {SOUND_TEST.heard}
          </button>
          <button
            type="button"
            class="button grow"
            data-testid="sound-not-heard"
            aria-pressed={sound.test() === 'not-heard'}
            onClick={() => sound.answer('not-heard')}
          >
            {SOUND_TEST.notHeard}
          </button>
        </div>
      </Show>
    </fieldset>
  );
}
