import { Show } from 'solid-js';
import { Choice } from '../../widgets/Fields.tsx';
import { LANGUAGES } from '../../words/languages.ts';
import { wordingFor } from '../../words/locale.ts';
import { SETTINGS } from '../../words/settings.ts';
import { useServices } from '../context.ts';
import { FormChoice } from '../documents/FormFields.tsx';
import type { Form } from '../documents/form.ts';

/** Language and decimal mark. They hold for a page as a whole: a change waits until it is loaded again. */
export function WordingPart(props: { form: Form<'settings'> }) {
  const app = useServices();
  const languages = [
    { value: 'auto', text: SETTINGS.languageAuto },
    ...Object.entries(LANGUAGES).map(([value, { name }]) => ({ value, text: name })),
  ];
  const waits = () => {
    const next = wordingFor(app.settings(), navigator.languages);
    return next.language !== app.wording.language || next.decimal !== app.wording.decimal;
  };
  return (
    <>
      <div class="fields">
        <Choice
          label={SETTINGS.language}
          testId="settings-language"
          value={app.settings().language}
          options={languages}
          onValue={(language) => props.form.write('language', language)}
        />
        <FormChoice form={props.form} at="decimal" label={SETTINGS.decimal} words={SETTINGS.decimals} />
      </div>
      <Show when={waits()}>
        <p class="note" data-testid="wording-waits">
          {SETTINGS.nextStart}
        </p>
        {/* Loading the page again ends the watch with it: never under a run. */}
        <Show when={app.live.run() === null}>
          <div class="row">
            <button type="button" class="button" data-testid="wording-now" onClick={() => location.reload()}>
              {SETTINGS.reload}
            </button>
          </div>
        </Show>
      </Show>
    </>
  );
}
