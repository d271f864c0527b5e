import { createSignal, type JSX, Show } from 'solid-js';
import { tamed } from '../../job/checklist-document.ts';
import { parseDocument } from '../../job/documents.ts';
import { CHECKLIST } from '../../words/checklists.ts';
import { issueText } from '../../words/issues.ts';
import { useServices } from '../context.ts';
import { saveBytes } from '../save.ts';
import type { Form } from './form.ts';

/** Longer files are no checklist, bytes. */
const MOST_BYTES = 100_000;

const jsonOf = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

/** A name that every disk takes. */
const fileName = (name: string): string =>
  `${name.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^[-.]+|-+$/g, '') || 'checklist'}.checklist.json`;

/** A list as a file of its own, to be handed on; what is opened stands in the form and is not saved yet. */
export function ChecklistFile(props: { readonly form: Form<'checklist'> }): JSX.Element {
  const app = useServices();
  const [told, setTold] = createSignal<string | null>(null);
  let input!: HTMLInputElement;
  const open = async (file: File) => {
    if (file.size > MOST_BYTES) return setTold(CHECKLIST.fileTooLarge);
    const { value, changed } = tamed(jsonOf(await file.text()));
    const parsed = parseDocument('checklist', value);
    if (parsed.ok) {
      const before = props.form.draft();
      props.form.change(parsed.value);
      const text = changed === 0 ? CHECKLIST.fileTaken : CHECKLIST.fileTamed(changed);
      app.say(text, () => props.form.change(before));
      return setTold(text);
    }
    const [first] = parsed.issues;
    const where = first === undefined || first.path === '' ? '' : `${first.path}: `;
    const why = first === undefined ? '' : issueText(first, app.units());
    return setTold(CHECKLIST.fileRefused(`${where}${why}`));
  };
  const save = () =>
    saveBytes(fileName(props.form.draft().name), `${JSON.stringify(props.form.draft(), null, 2)}\n`);
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        data-testid="list-save-file"
        disabled={!props.form.ok()}
        onClick={save}
      >
        {CHECKLIST.saveFile}
      </button>
      <button type="button" class="button" onClick={() => input.click()}>
        {CHECKLIST.openFile}
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json"
        hidden
        data-testid="list-open-file"
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          e.currentTarget.value = '';
          if (file !== undefined) open(file).catch(app.fail);
        }}
      />
      <Show when={told()}>
        {(text) => (
          <p class="small grow" role="status" data-testid="list-file-told">
            {text()}
          </p>
        )}
      </Show>
    </div>
  );
}
