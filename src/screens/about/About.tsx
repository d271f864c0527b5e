import { createResource, For, Show } from 'solid-js';
import { Part } from '../../widgets/Fields.tsx';
import { Loading } from '../../widgets/Loading.tsx';
import { ABOUT } from '../../words/about.ts';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';

/** What the program is and is not, and what it is made of. */
export function About(props: { version: string }) {
  const [licences] = createResource(async () => (await import('virtual:licences')).default);
  return (
    <div class="page about">
      <h1>{ABOUT.title}</h1>
      <p class="lead">{ABOUT.lead}</p>
      <Part title={ABOUT.howTitle}>
        <For each={ABOUT.how}>{(t) => <p>{t}</p>}</For>
      </Part>
      <Part title={ABOUT.cannotTitle}>
        <ul class="dots">
          <For each={ABOUT.cannot}>{(t) => <li>{t}</li>}</For>
        </ul>
      </Part>
      <Part title={ABOUT.cautions}>
        <ul class="dots">
          <For each={CAUTIONS_AT.about}>{(c) => <li>{CAUTION[c]}</li>}</For>
        </ul>
      </Part>
      <Part title={ABOUT.licences} note={ABOUT.licencesText}>
        <Show when={licences()} fallback={<Loading />}>
          {(list) => (
            <ul class="licences" data-testid="licences" translate="no">
              <For each={list()}>
                {(l) => (
                  <li>
                    <details>
                      <summary>
                        <strong>{l.name}</strong> <span class="muted">{`${l.version}, ${l.licence}`}</span>
                      </summary>
                      <pre>{l.text === '' ? ABOUT.noText : l.text}</pre>
                    </details>
                  </li>
                )}
              </For>
            </ul>
          )}
        </Show>
      </Part>
      <p class="small muted">{ABOUT.version(props.version)}</p>
    </div>
  );
}
