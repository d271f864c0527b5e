import { createSignal, For, type JSX, Show } from 'solid-js';
import type { RecordRef } from '../../evidence/messages.ts';
import type { HandSigned, Photo } from '../../job/enclosed.ts';
import { Dialog } from '../../widgets/Dialog.tsx';
import { Choice } from '../../widgets/Fields.tsx';
import { bytes, dateTimeZone } from '../../words/format.ts';
import { PHOTOS as P } from '../../words/photos.ts';
import { Picture } from './Picture.tsx';
import { Signature } from './SignaturePad.tsx';

/** When and by whom, and what else is kept of it. */
export function photoFacts(photo: Photo): string {
  const { original } = photo;
  return [
    P.taken[photo.source](dateTimeZone(photo.utcMs)),
    photo.by,
    ...(original === null ? [] : [P.withOriginal(bytes(original.bytes), P.carries(original.carries))]),
    photo.note,
  ]
    .filter((t) => t !== '')
    .join(' · ');
}

/** Photographs in small, each to be looked at large; two of them side by side. */
export function PhotoList(props: {
  photos: readonly Photo[];
  source?: RecordRef | undefined;
  /** What can be done with one. */
  keys?(photo: Photo): JSX.Element;
}) {
  const [shown, setShown] = createSignal<Photo | null>(null);
  const [comparing, setComparing] = createSignal(false);
  return (
    <>
      <ul class="photos" data-testid="photos">
        <For each={props.photos}>
          {(photo) => (
            <li>
              <button
                type="button"
                class="photo-key"
                aria-label={P.open(P.occasions[photo.occasion])}
                onClick={() => setShown(photo)}
              >
                <Picture
                  sha256={photo.small.sha256}
                  width={photo.small.width}
                  height={photo.small.height}
                  alt={P.occasions[photo.occasion]}
                  source={props.source}
                />
              </button>
              <p class="small">
                <strong>{P.occasions[photo.occasion]}</strong>
                <br />
                <bdi>{photoFacts(photo)}</bdi>
              </p>
              {props.keys?.(photo)}
            </li>
          )}
        </For>
      </ul>
      <Show when={props.photos.length > 1}>
        <div class="row no-print">
          <button
            type="button"
            class="button"
            data-testid="compare-photos"
            onClick={() => setComparing(true)}
          >
            {P.compare}
          </button>
        </div>
      </Show>
      <Dialog
        open={shown() !== null}
        title={P.occasions[shown()?.occasion ?? 'other']}
        onClose={() => setShown(null)}
        testId="photo-large"
        actions={
          <button type="button" class="button" autofocus onClick={() => setShown(null)}>
            {P.close}
          </button>
        }
      >
        <Show when={shown()}>{(photo) => <Large photo={photo()} source={props.source} />}</Show>
      </Dialog>
      <Dialog
        open={comparing()}
        title={P.compare}
        onClose={() => setComparing(false)}
        testId="photos-compared"
        actions={
          <button type="button" class="button" autofocus onClick={() => setComparing(false)}>
            {P.close}
          </button>
        }
      >
        <Compared photos={props.photos} source={props.source} />
      </Dialog>
    </>
  );
}

function Large(props: { photo: Photo; source?: RecordRef | undefined }) {
  return (
    <figure class="photo-large">
      <Picture
        sha256={props.photo.sha256}
        width={props.photo.width}
        height={props.photo.height}
        alt={P.occasions[props.photo.occasion]}
        source={props.source}
      />
      <figcaption class="small">
        <bdi>{photoFacts(props.photo)}</bdi>
      </figcaption>
    </figure>
  );
}

/** Two at a time, the first of before and the last of after where there are such. */
function Compared(props: { photos: readonly Photo[]; source?: RecordRef | undefined }) {
  const index = (photo: Photo | undefined, other: number) =>
    photo === undefined ? other : props.photos.indexOf(photo);
  const [left, setLeft] = createSignal(
    index(
      props.photos.find((p) => p.occasion === 'before'),
      0,
    ),
  );
  const [right, setRight] = createSignal(
    index(
      props.photos.findLast((p) => p.occasion === 'after'),
      props.photos.length - 1,
    ),
  );
  const options = () =>
    props.photos.map((p, i) => ({
      value: String(i),
      text: `${i + 1} ${P.occasions[p.occasion]}`,
    }));
  return (
    <div class="photo-pair">
      <For
        each={[
          { label: P.left, at: left, set: setLeft },
          { label: P.right, at: right, set: setRight },
        ]}
      >
        {(side) => (
          <div class="stack">
            <Choice
              label={side.label}
              value={String(side.at())}
              options={options()}
              onValue={(v) => side.set(Number(v))}
            />
            <Show when={props.photos[side.at()]}>
              {(photo) => <Large photo={photo()} source={props.source} />}
            </Show>
          </div>
        )}
      </For>
    </div>
  );
}

/** Signatures by hand, each with its name and time. */
export function SignedList(props: { signed: readonly HandSigned[]; keys?(signed: HandSigned): JSX.Element }) {
  return (
    <ul class="hands" data-testid="signed">
      <For each={props.signed}>
        {(s) => (
          <li>
            <Signature strokes={s.strokes} label={s.name} />
            <p class="small">
              <strong>{P.signed[s.as]}</strong>
              <br />
              <bdi>{s.name}</bdi>, {dateTimeZone(s.utcMs)}
            </p>
            {props.keys?.(s)}
          </li>
        )}
      </For>
    </ul>
  );
}
