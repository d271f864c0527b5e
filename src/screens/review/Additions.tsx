import { createSignal, For, Show } from 'solid-js';
import type { EvidenceRequest, SealedFacts } from '../../evidence/messages.ts';
import { addedHandIn, addedPhotoIn } from '../../job/added.ts';
import { PHOTO_OCCASIONS, type PhotoOccasion } from '../../job/enclosed.ts';
import { Choice, optionsOf, Part, TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E, signerText } from '../../words/evidence.ts';
import { dateTimeZone } from '../../words/format.ts';
import { PHOTOS as P } from '../../words/photos.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { knownInitials, ownInitials } from '../people.ts';
import { PhotoKeys } from '../photos/PhotoKeys.tsx';
import { Signature, SignaturePad } from '../photos/SignaturePad.tsx';

type Kind = 'correction' | 'note';

/** A body that this program wrote; others are shown as they are. */
function bodyText(body: unknown): { readonly text: string; readonly by: string } {
  const { text, by } = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  return {
    text: typeof text === 'string' ? text : JSON.stringify(body),
    by: typeof by === 'string' ? by : '',
  };
}

/** What was added, of which kind, when, by whom, and by whose key. */
export function AdditionLine(props: { of: SealedFacts['additions'][number] }) {
  const body = () => bodyText(props.of.body);
  const kind = () => (props.of.kind === 'status' ? E.status : E.kinds[props.of.kind]);
  return (
    <li>
      {/* Texts of anybody's, apart: signs that turn the direction turn nothing of what stands beside them. */}
      {kind()}, {dateTimeZone(props.of.utcMs)}, <bdi>{body().by}</bdi> ({signerText(props.of.signedBy)})
      {UI.colon}{' '}
      <strong>
        <bdi>{body().text}</bdi>
      </strong>
      <Show when={addedPhotoIn(props.of.body)}>
        {(photo) => (
          <figure class="added-photo">
            <img
              class="photo"
              src={`data:image/jpeg;base64,${photo().jpeg}`}
              width={photo().width}
              height={photo().height}
              alt={P.occasions[photo().occasion]}
            />
            <figcaption class="small">
              {P.occasions[photo().occasion]}, {P.taken[photo().source](dateTimeZone(photo().utcMs))}
            </figcaption>
          </figure>
        )}
      </Show>
      <Show when={addedHandIn(props.of.body)}>
        {(hand) => (
          <figure class="added-hand">
            <Signature strokes={hand().strokes} label={hand().name} />
            <figcaption class="small">
              {P.signed[hand().as]}
              {UI.colon} <bdi>{hand().name}</bdi>
            </figcaption>
          </figure>
        )}
      </Show>
    </li>
  );
}

/** Corrections after the sealing: signed, added at the end, nothing rewritten. */
export function Additions(props: { sealed: SealedFacts; runId: string | null; onChange(): void }) {
  const app = useServices();
  const [kind, setKind] = createSignal<Kind>('correction');
  const [text, setText] = createSignal('');
  const [typedBy, setBy] = createSignal<string | null>(null);
  const by = () => typedBy() ?? ownInitials(app);
  const [occasion, setOccasion] = createSignal<PhotoOccasion>('after');
  const [busy, setBusy] = createSignal(false);
  const add = (runId: string, more: Pick<Extract<EvidenceRequest, { q: 'add' }>, 'photo' | 'hand'> = {}) => {
    setBusy(true);
    // What is seen needs no text of its own.
    const shown = more.photo === undefined ? '' : P.occasions[more.photo.occasion];
    const said = more.hand === undefined ? shown : P.signed[more.hand.as];
    return app
      .evidence({
        q: 'add',
        runId,
        kind: said === '' ? kind() : 'note',
        text: text().trim() === '' ? said : text(),
        by: by().trim() === '' ? (more.hand?.name ?? '') : by(),
        ...more,
      })
      .then(
        () => {
          setText('');
          props.onChange();
          return true;
        },
        (cause: unknown) => {
          app.fail(cause);
          return false;
        },
      )
      .finally(() => setBusy(false));
  };
  const addPhoto = (runId: string, [file]: readonly File[], source: 'camera' | 'file') => {
    if (file === undefined) return;
    const utcMs = source === 'camera' ? Date.now() : Math.max(0, file.lastModified);
    void add(runId, { photo: { file, occasion: occasion(), utcMs, source } });
  };
  return (
    <Part title={E.additions}>
      <Show when={props.sealed.additions.length > 0} fallback={<p class="muted small">{E.noAdditions}</p>}>
        <ol class="dots" data-testid="additions">
          <For each={props.sealed.additions}>{(a) => <AdditionLine of={a} />}</For>
        </ol>
      </Show>
      <Show when={props.runId}>
        {(runId) => (
          <details class="no-print">
            <summary>{E.addTitle}</summary>
            <div class="stack">
              <div class="fields">
                <Choice
                  label={E.addKind}
                  value={kind()}
                  options={optionsOf<Kind>(E.kinds)}
                  onValue={setKind}
                />
                <TextField
                  label={E.addBy}
                  testId="addition-by"
                  value={by()}
                  offers={knownInitials(app)}
                  onValue={setBy}
                />
              </div>
              <TextField label={E.addText} testId="addition-text" long value={text()} onValue={setText} />
              <div class="row">
                <button
                  type="button"
                  class="button"
                  data-testid="add-addition"
                  disabled={busy() || text().trim() === '' || by().trim() === ''}
                  onClick={() => void add(runId())}
                >
                  {E.add}
                </button>
              </div>
              <p class="small muted">{P.addText}</p>
              <Choice
                label={P.occasion}
                testId="added-occasion"
                value={occasion()}
                options={PHOTO_OCCASIONS.map((value) => ({ value, text: P.occasions[value] }))}
                onValue={setOccasion}
              />
              <PhotoKeys
                busy={busy() || by().trim() === ''}
                single
                onFiles={(files, source) => addPhoto(runId(), files, source)}
              />
              <details>
                <summary>{P.signTitle}</summary>
                <SignaturePad
                  onKeep={({ as, name, strokes }) =>
                    add(runId(), { hand: { as, name, strokes: strokes.map((s) => [...s]) } })
                  }
                />
              </details>
            </div>
          </details>
        )}
      </Show>
    </Part>
  );
}
