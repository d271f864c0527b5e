import { createSignal, type JSX, Show } from 'solid-js';
import { parseDocument } from '../../job/documents.ts';
import { issueText } from '../../words/issues.ts';
import { MAPS } from '../../words/maps.ts';
import { useServices } from '../context.ts';
import { saveBytes } from '../save.ts';
import type { Form } from './form.ts';

/** Longer files are no map, bytes. */
const MOST_BYTES = 100_000;

const jsonOf = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

/** A map as a file of its own, to be handed on; what is opened stands in the form and is not saved yet. */
export function MapFile<K extends 'registers' | 'columns'>(props: { readonly form: Form<K> }): JSX.Element {
  const app = useServices();
  const [told, setTold] = createSignal<string | null>(null);
  let input!: HTMLInputElement;
  const open = async (file: File) => {
    if (file.size > MOST_BYTES) return setTold(MAPS.fileTooLarge);
    const parsed = parseDocument(props.form.kind, jsonOf(await file.text()));
    if (parsed.ok) {
      props.form.change(parsed.value);
      return setTold(MAPS.fileTaken);
    }
    const [first] = parsed.issues;
    const where = first === undefined || first.path === '' ? '' : `${first.path}: `;
    const why = first === undefined ? '' : issueText(first, app.units());
    return setTold(MAPS.fileRefused(`${where}${why}`));
  };
  const save = () =>
    saveBytes(`${props.form.draft().deviceId}.json`, `${JSON.stringify(props.form.draft(), null, 2)}\n`);
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        data-testid="map-save-file"
        disabled={!props.form.ok()}
        onClick={save}
      >
        {MAPS.saveFile}
      </button>
      <button type="button" class="button" onClick={() => input.click()}>
        {MAPS.openFile}
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        hidden
        data-testid="map-open-file"
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          e.currentTarget.value = '';
          if (file !== undefined) open(file).catch(app.fail);
        }}
      />
      <Show when={told()}>
        {(text) => (
          <p class="small grow" role="status" data-testid="map-file-told">
            {text()}
          </p>
        )}
      </Show>
    </div>
  );
}
