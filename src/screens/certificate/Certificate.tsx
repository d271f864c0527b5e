import { createEffect, createResource, createSignal, onCleanup, Show } from 'solid-js';
import { refOf } from '../../evidence/messages.ts';
import { Choice } from '../../widgets/Fields.tsx';
import { EVIDENCE as E, progressText } from '../../words/evidence.ts';
import { LANGUAGES } from '../../words/languages.ts';
import { wordingFor } from '../../words/locale.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { saveBlob } from '../save.ts';

const STYLE = /<style>([^<]*)<\/style>/;

/** The certificate as it prints: the worker's own page, put into this one, so that printing prints it alone. */
export function Certificate(props: { id: string }) {
  const app = useServices();
  /** Another language for the client to read it in; null: as it was sealed. */
  const [language, setLanguage] = createSignal<string | null>(null);
  const [busy, setBusy] = createSignal(progressText(E.certificate, 0));
  const [page] = createResource(
    () => ({ id: props.id, language: language() }),
    ({ id, language }) =>
      app
        .evidence(
          {
            q: 'certificate',
            ref: refOf(id),
            ...(language === null ? {} : { wording: wordingFor({ language, decimal: 'auto' }, []) }),
          },
          (share) => setBusy(progressText(E.certificate, share)),
        )
        .catch(failed(app)),
  );
  const back = () =>
    /^[0-9a-f]{64}$|^opened$/.test(props.id) ? `#/record/${props.id}` : `#/run/${props.id}`;
  let host!: HTMLDivElement;
  const titleBefore = document.title;
  const sheet = new CSSStyleSheet();
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  onCleanup(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((s) => s !== sheet);
    document.title = titleBefore;
  });
  createEffect(() => {
    const made = page();
    if (made === undefined || made === null) return;
    // The app's own policy lets in no style element that did not come with it, not even into a document that is only
    // parsed: the papers' style becomes a sheet, which is none.
    const [style, css] = STYLE.exec(made.html) ?? ['', ''];
    sheet.replaceSync(css ?? '');
    // Parsed, never run: a parsed document's scripts are dead, and the page holds none.
    const parsed = new DOMParser().parseFromString(made.html.replace(style, ''), 'text/html');
    document.title = parsed.title;
    // Another language than the page's: a voice reads it so, and words part as they do there.
    host.lang = parsed.documentElement.lang;
    host.replaceChildren(...parsed.querySelectorAll('.certificate'));
  });
  return (
    <div class="page certificate-page">
      <div class="row no-print">
        <a class="button quiet" href={back()}>
          {UI.back}
        </a>
        <Show when={page.latest}>
          {(p) => (
            <>
              <button type="button" class="button primary" data-testid="print" onClick={() => print()}>
                {E.print}
              </button>
              <button
                type="button"
                class="button"
                data-testid="save-html"
                onClick={() => saveBlob('certificate.html', new Blob([p().html], { type: 'text/html' }))}
              >
                {E.saveHtml}
              </button>
              <Choice
                label={E.certificateLanguage}
                testId="certificate-language"
                value={language() ?? p().sealedIn}
                options={Object.entries(LANGUAGES).map(([value, { name }]) => ({ value, text: name }))}
                onValue={(chosen) => setLanguage(chosen === p().sealedIn ? null : chosen)}
              />
              <Show when={language() !== null}>
                <p class="small muted" data-testid="certificate-copy">
                  {E.certificateCopy(LANGUAGES[p().sealedIn]?.name ?? p().sealedIn)}
                </p>
              </Show>
            </>
          )}
        </Show>
      </div>
      <Show when={page.loading}>
        <p role="status">{busy()}</p>
      </Show>
      <div ref={host} class="certificate-host" data-testid="certificate-host" />
    </div>
  );
}
