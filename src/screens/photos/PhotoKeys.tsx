import { PHOTOS as P } from '../../words/photos.ts';

/** What browsers open; a camera's own formats are told when one comes. */
const ACCEPT = 'image/*';

/** The tablet's own camera, or files from elsewhere, such as the pipe camera's. */
export function PhotoKeys(props: {
  busy: boolean;
  /** One at a time. */
  single?: boolean;
  onFiles(files: readonly File[], source: 'camera' | 'file'): void;
}) {
  let camera!: HTMLInputElement;
  let files!: HTMLInputElement;
  const take = (input: HTMLInputElement, source: 'camera' | 'file') => {
    const chosen = [...(input.files ?? [])];
    input.value = '';
    if (chosen.length > 0) props.onFiles(chosen, source);
  };
  return (
    <div class="row no-print">
      <button type="button" class="button primary grow" disabled={props.busy} onClick={() => camera.click()}>
        {P.take}
      </button>
      <button type="button" class="button grow" disabled={props.busy} onClick={() => files.click()}>
        {P.choose}
      </button>
      <input
        ref={camera}
        type="file"
        accept={ACCEPT}
        capture="environment"
        class="visually-hidden"
        tabIndex={-1}
        aria-label={P.take}
        data-testid="photo-camera"
        onChange={() => take(camera, 'camera')}
      />
      <input
        ref={files}
        type="file"
        accept={ACCEPT}
        multiple={props.single !== true}
        class="visually-hidden"
        tabIndex={-1}
        aria-label={P.choose}
        data-testid="photo-files"
        onChange={() => take(files, 'file')}
      />
    </div>
  );
}
