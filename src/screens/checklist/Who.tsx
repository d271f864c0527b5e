import { type Accessor, createSignal, For, Show } from 'solid-js';
import { LIST } from '../../words/checks.ts';
import type { Services } from '../context.ts';
import { knownInitials, ownInitials } from '../people.ts';

/** Whoever answered last goes on answering, on the sheet and in the run. */
const [chosen, setChosen] = createSignal<string | null>(null);

/** Initials that answers carry now; empty: nobody is named. */
export function answering(app: Pick<Services, 'settings' | 'nowMs'>): Accessor<string> {
  return () => {
    const who = chosen();
    return who !== null && knownInitials(app).includes(who) ? who : ownInitials(app);
  };
}

/** Who is at the computer: one key for each who is here today. */
export function Who(props: {
  app: Pick<Services, 'settings' | 'nowMs'>;
  /** Says how one is named, where nobody is: not on the live page, where room is dear. */
  hint?: boolean;
}) {
  const now = answering(props.app);
  const all = () => knownInitials(props.app);
  return (
    <Show
      when={all().length > 0}
      fallback={
        <Show when={props.hint}>
          <p class="small muted">{LIST.nobodyText}</p>
        </Show>
      }
    >
      <fieldset class="who" data-testid="who">
        <legend class="small">{LIST.by}</legend>
        <For each={all()}>
          {(initials) => (
            <button
              type="button"
              class="button"
              aria-pressed={now() === initials}
              data-testid={`who-${initials}`}
              onClick={() => setChosen(now() === initials ? '' : initials)}
            >
              {initials}
            </button>
          )}
        </For>
      </fieldset>
    </Show>
  );
}
