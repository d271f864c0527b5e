import { For } from 'solid-js';
import { WELCOME } from '../../words/welcome.ts';

/** From the top of the ladder to its foot. */
const MARKS = ['over', 'rated', 'ceiling', 'settles', 'working', 'now', 'floor', 'seat'] as const;

/** The ladder explained, mark by mark. */
export function LadderGuide() {
  return (
    <section class="panel guide">
      <h2>{WELCOME.guide}</h2>
      <p class="muted">{WELCOME.guideLead}</p>
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
    </section>
  );
}
