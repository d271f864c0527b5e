import { createResource, createSignal, Show } from 'solid-js';
import type { Beside } from '../../evidence/enclosed/messages.ts';
import type { RecordRef } from '../../evidence/messages.ts';
import { type Enclosed, type HandSigned, PHOTO_OCCASIONS, type PhotoOccasion } from '../../job/enclosed.ts';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Choice, Part, TextField, Tick } from '../../widgets/Fields.tsx';
import { PHOTOS as P } from '../../words/photos.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { knownInitials, ownInitials } from '../people.ts';
import { PhotoKeys } from './PhotoKeys.tsx';
import { PhotoList, SignedList } from './PhotoList.tsx';
import { SignaturePad } from './SignaturePad.tsx';

/** Photographs and signatures of a sealed record, to look at. */
export function SealedEnclosed(props: { enclosed: Enclosed | null; source: RecordRef }) {
  return (
    <Part title={P.title} id="photos" note={props.enclosed === null ? P.noneSealed : P.leadSealed}>
      <Show when={props.enclosed}>
        {(e) => (
          <>
            <Show when={e().present.length > 0}>
              <p data-testid="present">
                {P.present(
                  e()
                    .present.map((p) => `${p.name} (${p.initials})`)
                    .join(', '),
                )}
              </p>
            </Show>
            <PhotoList photos={e().photos} source={props.source} />
            <SignedList signed={e().signed} />
          </>
        )}
      </Show>
    </Part>
  );
}

/** Photographs and signatures beside a job or a run that is not sealed: taken, described, removed. */
export function EnclosedPart(props: { beside: Beside; folded?: boolean }) {
  const app = useServices();
  const [kept, { mutate }] = createResource(
    () => props.beside,
    (beside) => app.evidence({ q: 'enclosed', beside }).catch(failed(app)),
  );
  const [occasion, setOccasion] = createSignal<PhotoOccasion>('before');
  const [typedBy, setBy] = createSignal<string | null>(null);
  const by = () => typedBy() ?? ownInitials(app);
  const [note, setNote] = createSignal('');
  const [original, setOriginal] = createSignal(false);
  const [busy, setBusy] = createSignal<string | null>(null);
  const [removing, setRemoving] = createSignal<string | null>(null);

  const add = async (files: readonly File[], source: 'camera' | 'file') => {
    let done = 0;
    for (const file of files) {
      setBusy(P.reducing(done + 1, files.length));
      // Of a file from elsewhere its own date is nearer to the truth than this moment.
      const utcMs = source === 'camera' ? Date.now() : Math.max(0, file.lastModified);
      const photo = {
        file,
        occasion: occasion(),
        utcMs,
        source,
        by: by(),
        note: note(),
        keepOriginal: original(),
      };
      const now = await app.evidence({ q: 'add-photo', beside: props.beside, photo }).catch(failed(app));
      // What is wrong with one is said of it; the others are none the worse for it.
      if (now === null) continue;
      done++;
      mutate(now);
    }
    setBusy(null);
    if (done === 0) return;
    setNote('');
    app.say(P.kept(done));
  };
  const remove = (sha256: string) => {
    setRemoving(null);
    app.evidence({ q: 'remove-photo', beside: props.beside, sha256 }).then((now) => mutate(now), app.fail);
  };
  const sign = (signed: Omit<HandSigned, 'utcMs'>): Promise<boolean> =>
    app.evidence({ q: 'add-signed', beside: props.beside, signed }).then(
      (now) => {
        mutate(now);
        return true;
      },
      (cause: unknown) => {
        app.fail(cause);
        return false;
      },
    );
  const unsign = ({ as, utcMs }: HandSigned) =>
    app
      .evidence({ q: 'remove-signed', beside: props.beside, as, utcMs })
      .then((now) => mutate(now), app.fail);
  const photos = () => kept()?.photos ?? [];
  const signed = () => kept()?.signed ?? [];

  return (
    <Part title={P.title} id="photos" folded={props.folded ?? false} note={P.lead}>
      <Show when={photos().length > 0} fallback={<p class="muted small">{P.none}</p>}>
        <PhotoList
          photos={photos()}
          keys={(photo) => (
            <Show when={!photos().some((p) => p.sha256 === photo.sha256 && p.sealed)}>
              <button
                type="button"
                class="button quiet no-print"
                data-testid="remove-photo"
                onClick={() => setRemoving(photo.sha256)}
              >
                {P.remove}
              </button>
            </Show>
          )}
        />
      </Show>
      <div class="fields no-print">
        <Choice
          label={P.occasion}
          testId="photo-occasion"
          value={occasion()}
          options={PHOTO_OCCASIONS.map((value) => ({ value, text: P.occasions[value] }))}
          onValue={setOccasion}
        />
        <TextField
          label={P.by}
          testId="photo-by"
          value={by()}
          offers={knownInitials(app)}
          onValue={(v) => setBy(v.slice(0, 40))}
        />
        <TextField
          label={P.note}
          testId="photo-note"
          value={note()}
          onValue={(v) => setNote(v.slice(0, 300))}
        />
      </div>
      <PhotoKeys busy={busy() !== null} onFiles={(files, source) => void add(files, source)} />
      <div class="no-print">
        <Tick label={P.original} testId="keep-original" checked={original()} onChecked={setOriginal} />
        <Show when={original()}>
          <p class="note strong">{P.originalText}</p>
        </Show>
      </div>
      <Show when={busy()}>
        <p role="status" data-testid="photo-busy">
          {busy()}
        </p>
      </Show>
      <SignedList
        signed={signed()}
        keys={(hand) => (
          <Show when={!signed().some((s) => s.utcMs === hand.utcMs && s.sealed)}>
            <button
              type="button"
              class="button quiet no-print"
              data-testid="remove-signature"
              onClick={() => unsign(hand)}
            >
              {P.removeSigned}
            </button>
          </Show>
        )}
      />
      <details class="no-print" data-testid="sign">
        <summary>{P.signTitle}</summary>
        <SignaturePad onKeep={sign} />
      </details>
      <Confirm
        open={removing() !== null}
        title={P.removeAsk}
        text={P.removeText}
        yes={UI.remove}
        onYes={() => remove(removing()!)}
        onNo={() => setRemoving(null)}
      />
    </Part>
  );
}
