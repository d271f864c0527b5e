import { Show } from 'solid-js';
import type { RecordRef } from '../../evidence/messages.ts';
import { PHOTOS as P } from '../../words/photos.ts';
import { createPhotoUrl } from './photo-url.ts';

/** One photograph, at the size that its place gives it. */
export function Picture(props: {
  sha256: string;
  width: number;
  height: number;
  alt: string;
  source?: RecordRef | undefined;
}) {
  const url = createPhotoUrl(
    () => props.sha256,
    () => props.source,
  );
  return (
    <Show when={url() !== 'gone'} fallback={<p class="photo-gone">{P.gone}</p>}>
      <img
        class="photo"
        src={url() ?? undefined}
        width={props.width}
        height={props.height}
        alt={props.alt}
        decoding="async"
      />
    </Show>
  );
}
