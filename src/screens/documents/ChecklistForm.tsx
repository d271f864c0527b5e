import { createMemo, createSignal, For, type JSX, Show } from 'solid-js';
import { MOMENTS, type Moment } from '../../job/checklist.ts';
import { type ChecklistItem, MOST_ITEMS, movedItem, ownCopy } from '../../job/checklist-document.ts';
import { Part } from '../../widgets/Fields.tsx';
import { CHECKLIST, WANTS } from '../../words/checklists.ts';
import { CHECK, LIST, MOMENT } from '../../words/checks.ts';
import { useServices } from '../context.ts';
import { ChecklistFile } from './ChecklistFile.tsx';
import { FormChoice, FormText, FormTick } from './FormFields.tsx';
import type { Form } from './form.ts';

/** Answers in records name an item by this: none is ever given twice. */
const itemId = (): string =>
  `item-${[...crypto.getRandomValues(new Uint8Array(6))].map((b) => b.toString(36).padStart(2, '0')).join('')}`;

/** A firm's own checklist: its items by the moment at which they are asked, to be put in order, added and taken away. */
export function ChecklistForm(props: { form: Form<'checklist'> }): JSX.Element {
  const app = useServices();
  const form = props.form;
  const items = (): readonly ChecklistItem[] => form.draft().items;
  const put = (next: readonly ChecklistItem[]) => form.write('items', next);
  const [opened, setOpened] = createSignal<string | null>(null);
  // By id: a row stays the same one while its words are typed and while it is moved.
  const idsOf = (moment: Moment) =>
    createMemo(
      () =>
        items()
          .filter((i) => i.at === moment)
          .map((i) => i.id),
      [],
      { equals: (a, b) => a.join() === b.join() },
    );
  const at = (id: string) => items().findIndex((i) => i.id === id);
  const nameOf = (id: string) => {
    const text = items()[at(id)]?.text.trim() ?? '';
    return text === '' ? CHECKLIST.noText : text;
  };
  const focus = (testId: string) =>
    queueMicrotask(() => document.querySelector<HTMLElement>(`[data-testid="${testId}"]`)?.focus());
  const move = (id: string, by: -1 | 1) => {
    put(movedItem(items(), at(id), by));
    // The row was moved, and whoever moves it goes on by key.
    const [same, other] = by < 0 ? ['up', 'down'] : ['down', 'up'];
    queueMicrotask(() => {
      const key = (name: string) =>
        document.querySelector<HTMLButtonElement>(`[data-testid="${name}-${id}"]`);
      (key(same)?.disabled === true ? key(other) : key(same))?.focus();
    });
  };
  const remove = (id: string) => {
    const before = items();
    const name = nameOf(id);
    put(before.filter((i) => i.id !== id));
    app.say(CHECKLIST.removed(name), () => put(before));
  };
  const add = (moment: Moment) => {
    const id = itemId();
    put([...items(), { id, at: moment, text: '', safety: false, wants: 'tick', unit: '' }]);
    setOpened(id);
    focus(`checklist-items.${at(id)}.text`);
  };
  return (
    <>
      <Part title={CHECKLIST.head} note={CHECKLIST.text}>
        <div class="fields">
          <FormText form={form} at="name" label={CHECKLIST.name} />
        </div>
        <FormTick form={form} at="inUse" label={CHECKLIST.inUse} />
        <ChecklistFile form={form} />
      </Part>
      <Part title={CHECKLIST.items} note={CHECKLIST.itemsText}>
        <Show when={items().length === 0}>
          <p class="note" data-testid="list-empty">
            {CHECKLIST.empty}
          </p>
          <button
            type="button"
            class="button"
            data-testid="list-begin-again"
            onClick={() => put(ownCopy('', CHECK).items)}
          >
            {CHECKLIST.beginAgain}
          </button>
        </Show>
        <Show when={form.issue('items')}>
          {(why) => (
            <p class="field-note wrong-note" role="alert">
              {why()}
            </p>
          )}
        </Show>
        <For each={MOMENTS}>
          {(moment) => {
            const ids = idsOf(moment);
            return (
              <section class="checklist" aria-label={MOMENT[moment]}>
                <h3>{MOMENT[moment]}</h3>
                <For each={ids()}>
                  {(id, place) => (
                    <Item
                      form={form}
                      row={at(id)}
                      id={id}
                      name={nameOf(id)}
                      item={items()[at(id)]}
                      first={place() === 0}
                      last={place() === ids().length - 1}
                      open={opened() === id}
                      onMove={(by) => move(id, by)}
                      onRemove={() => remove(id)}
                    />
                  )}
                </For>
                <Show when={items().length < MOST_ITEMS}>
                  <button
                    type="button"
                    class="button"
                    data-testid={`list-add-${moment}`}
                    onClick={() => add(moment)}
                  >
                    {CHECKLIST.add(MOMENT[moment])}
                  </button>
                </Show>
              </section>
            );
          }}
        </For>
        <Show when={items().length >= MOST_ITEMS}>
          <p class="note">{CHECKLIST.full(MOST_ITEMS)}</p>
        </Show>
      </Part>
    </>
  );
}

function Item(props: {
  form: Form<'checklist'>;
  row: number;
  id: string;
  name: string;
  item: ChecklistItem | undefined;
  first: boolean;
  last: boolean;
  open: boolean;
  onMove(by: -1 | 1): void;
  onRemove(): void;
}): JSX.Element {
  return (
    <div class="list-item" data-testid={`list-item-${props.id}`}>
      <details open={props.open}>
        <summary>
          <span>
            {props.name}
            <Show when={props.item?.safety}>
              {' '}
              <strong class="tag">{LIST.safety}</strong>
            </Show>
          </span>
        </summary>
        <div class="stack">
          <FormText form={props.form} at={`items.${props.row}.text`} label={CHECKLIST.itemText} />
          <div class="fields">
            <FormChoice form={props.form} at={`items.${props.row}.at`} label={CHECKLIST.at} words={MOMENT} />
            <FormChoice
              form={props.form}
              at={`items.${props.row}.wants`}
              label={CHECKLIST.wants}
              words={WANTS}
            />
            <Show when={props.item?.wants === 'number'}>
              <FormText form={props.form} at={`items.${props.row}.unit`} label={CHECKLIST.unit} />
            </Show>
          </div>
          <FormTick form={props.form} at={`items.${props.row}.safety`} label={CHECKLIST.safety} />
          <button
            type="button"
            class="button quiet"
            data-testid={`list-remove-${props.id}`}
            onClick={() => props.onRemove()}
          >
            {CHECKLIST.remove}
          </button>
        </div>
      </details>
      <button
        type="button"
        class="button list-move"
        aria-label={CHECKLIST.up(props.name)}
        disabled={props.first}
        data-testid={`up-${props.id}`}
        onClick={() => props.onMove(-1)}
      >
        ↑
      </button>
      <button
        type="button"
        class="button list-move"
        aria-label={CHECKLIST.down(props.name)}
        disabled={props.last}
        data-testid={`down-${props.id}`}
        onClick={() => props.onMove(1)}
      >
        ↓
      </button>
    </div>
  );
}
