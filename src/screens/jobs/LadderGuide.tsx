import { createResource, For, Show } from 'solid-js';
import { loadWords } from '../../words/chosen.ts';
import { UI } from '../../words/ui.ts';
import { WELCOME } from '../../words/welcome.ts';

/** From the top of the ladder to its foot. */
const MARKS = ['over', 'rated', 'ceiling', 'settles', 'working', 'now', 'floor', 'seat'] as const;

/** The ladder explained, mark by mark. The list is there at once; the picture follows with the words that it shows. */
export function LadderGuide() {
  const [picture] = createResource(async () => {
    await loadWords('watch');
    return import('./GuidePicture.tsx');
  });
  return (
    <section class="panel guide">
      <h2>{WELCOME.guide}</h2>
      <p class="muted">{WELCOME.guideLead}</p>
      <div class="guide-parts">
        <div class="guide-picture">
          <Show when={!picture.error && picture()}>
            {(code) => {
              const { GuidePicture } = code();
              return <GuidePicture />;
            }}
          </Show>
        </div>
        <dl class="guide-marks">
          <For each={MARKS}>
            {(mark) => (
              <div>
                <dt>{WELCOME[mark].name}</dt>
                <dd>{WELCOME[mark].means}</dd>
              </div>
            )}
          </For>
        </dl>
      </div>
      <a class="button wide" href="#/card" data-testid="to-card">
        {UI.card}
      </a>
    </section>
  );
}
