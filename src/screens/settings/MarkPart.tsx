import { createSignal, Show } from 'solid-js';
import { FileKey } from '../../widgets/FileKey.tsx';
import { FIRM } from '../../words/photos.ts';
import { useServices } from '../context.ts';
import { changeSettings } from './change.ts';
import { type MarkRefusal, markOf } from './mark-of.ts';

/** The firm's own mark for its certificates: taken in as a picture, kept as one that was drawn here. */
export function MarkPart() {
  const app = useServices();
  const [why, setWhy] = createSignal<MarkRefusal | null>(null);
  const mark = () => app.settings().mark;
  const take = (file: File) => {
    setWhy(null);
    markOf(file).then(
      (made) => (typeof made === 'string' ? setWhy(made) : changeSettings(app, { mark: made })),
      app.fail,
    );
  };
  const remove = () => {
    const { mark: gone, ...rest } = app.settings();
    app.saveSettings(rest).catch(app.fail);
    if (gone !== undefined) app.say(FIRM.markRemoved, () => changeSettings(app, { mark: gone }));
  };
  return (
    <div class="stack">
      <p class="small muted">{FIRM.markText}</p>
      <Show when={mark()}>
        {(m) => (
          <img
            class="firm-mark"
            data-testid="firm-mark"
            src={`data:image/png;base64,${m().png}`}
            width={m().width}
            height={m().height}
            alt={FIRM.mark}
          />
        )}
      </Show>
      <Show when={why()}>
        {(w) => (
          <p class="note strong" role="alert" data-testid="mark-refused">
            {FIRM.refused[w()]}
          </p>
        )}
      </Show>
      <div class="row">
        <FileKey
          label={FIRM.markChoose}
          testId="mark-file"
          accept="image/png,image/svg+xml,image/jpeg"
          disabled={false}
          onFile={take}
        >
          {FIRM.markChoose}
        </FileKey>
        <Show when={mark() !== undefined}>
          <button type="button" class="button quiet" data-testid="remove-mark" onClick={remove}>
            {FIRM.markRemove}
          </button>
        </Show>
      </div>
    </div>
  );
}
