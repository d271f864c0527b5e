import { createSignal, For, Show } from 'solid-js';
import { dayOf, hereOn, MOST_PEOPLE, withHere } from '../../job/people.ts';
import { Part, TextField, Tick } from '../../widgets/Fields.tsx';
import { FIRM } from '../../words/photos.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { changeSettings } from './change.ts';

/** The crew by initials, and who of them is here today. */
export function PeoplePart() {
  const app = useServices();
  const [initials, setInitials] = createSignal('');
  const [name, setName] = createSignal('');
  const people = () => app.settings().people ?? [];
  const here = () => app.settings().here ?? [];
  const today = () => dayOf(app.nowMs());
  const isHere = (who: string) => hereOn(people(), here(), today()).some((p) => p.initials === who);
  const known = () => people().some((p) => p.initials === initials().trim());
  const complete = () => initials().trim() !== '' && name().trim() !== '' && !known();
  const add = () => {
    changeSettings(app, {
      people: [...people(), { initials: initials().trim(), name: name().trim() }],
    });
    setInitials('');
    setName('');
  };
  const remove = (who: string) => {
    const before = people();
    changeSettings(app, { people: before.filter((p) => p.initials !== who) });
    app.say(FIRM.personRemoved(who), () => changeSettings(app, { people: before }));
  };
  const setHere = (who: string, is: boolean) => {
    const chosen = hereOn(people(), here(), today()).map((p) => p.initials);
    const next = is ? [...chosen, who] : chosen.filter((c) => c !== who);
    changeSettings(app, { here: withHere(here(), today(), next) });
  };
  return (
    <Part title={FIRM.people} note={FIRM.peopleText} id="people">
      <Show when={people().length > 0} fallback={<p class="muted small">{FIRM.nobody}</p>}>
        <ul class="people" data-testid="people" aria-label={FIRM.hereToday}>
          <For each={people()}>
            {(p) => (
              <li class="row">
                <Tick
                  label={`${p.initials} · ${p.name}`}
                  checked={isHere(p.initials)}
                  testId={`here-${p.initials}`}
                  onChecked={(is) => setHere(p.initials, is)}
                />
                <button type="button" class="button quiet" onClick={() => remove(p.initials)}>
                  {UI.remove}
                </button>
              </li>
            )}
          </For>
        </ul>
        <p class="small muted">{FIRM.hereText}</p>
      </Show>
      <Show when={people().length < MOST_PEOPLE}>
        <div class="fields">
          <TextField
            label={FIRM.initials}
            testId="person-initials"
            value={initials()}
            issue={known() ? FIRM.initialsKnown : null}
            onValue={(v) => setInitials(v.slice(0, 8))}
          />
          <TextField
            label={FIRM.name}
            testId="person-name"
            value={name()}
            onValue={(v) => setName(v.slice(0, 60))}
          />
        </div>
        <div class="row">
          <button type="button" class="button" data-testid="add-person" disabled={!complete()} onClick={add}>
            {FIRM.addPerson}
          </button>
        </div>
      </Show>
    </Part>
  );
}
