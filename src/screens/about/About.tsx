import { For } from 'solid-js';
import { ABOUT } from '../../words/about.ts';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';

export function About(props: { version: string }) {
  return (
    <div class="page about">
      <h1>{ABOUT.title}</h1>
      <p class="lead">{ABOUT.lead}</p>
      <section class="stack">
        <h2>{ABOUT.howTitle}</h2>
        <For each={ABOUT.how}>{(t) => <p>{t}</p>}</For>
      </section>
      <section class="stack">
        <h2>{ABOUT.cannotTitle}</h2>
        <ul class="dots">
          <For each={ABOUT.cannot}>{(t) => <li>{t}</li>}</For>
        </ul>
      </section>
      <section class="stack">
        <h2>{ABOUT.cautions}</h2>
        <ul class="dots">
          <For each={CAUTIONS_AT.about}>{(c) => <li>{CAUTION[c]}</li>}</For>
        </ul>
      </section>
      <p class="small muted">{ABOUT.version(props.version)}</p>
    </div>
  );
}
