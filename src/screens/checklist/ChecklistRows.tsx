import { createSignal, For, Show } from 'solid-js';
import { type CheckAnswer, MOST_SAID } from '../../job/check-answers.ts';
import { type CheckSaid, MOMENTS, type Moment } from '../../job/checklist.ts';
import type { KeptChecklist, KeptItem } from '../../job/checklist-document.ts';
import { TextField } from '../../widgets/Fields.tsx';
import { Key } from '../../widgets/Key.tsx';
import { CHECK_REASONS, itemName, LIST, MOMENT } from '../../words/checks.ts';
import { FACE } from '../../words/face.ts';
import { dateTime } from '../../words/format.ts';
import { UI } from '../../words/ui.ts';

/**
 * Items of a checklist as rows for a gloved hand: the whole row is the answer, and says since when and by whom. A safety item
 * has beside it the way on without, which is held and asks for a reason.
 */
export function ChecklistRows(props: {
  list: KeptChecklist;
  answers: readonly CheckAnswer[];
  moments: readonly Moment[];
  /** Headings over the moments: not where there is but one, named already. */
  headed?: boolean;
  onSay(item: KeptItem, how: CheckSaid, text: string): void;
}) {
  const [asking, setAsking] = createSignal<string | null>(null);
  const [typed, setTyped] = createSignal<Readonly<Record<string, string>>>({});
  const groups = () =>
    MOMENTS.filter((m) => props.moments.includes(m) && props.list.items.some((i) => i.at === m));
  const answerOf = (item: KeptItem) => props.answers.find((a) => a.item === item.id) ?? null;
  const typedOf = (item: KeptItem) => typed()[item.id] ?? answerOf(item)?.text ?? '';
  const told = (a: CheckAnswer, unit: string) => {
    const when = a.atUtcMs === null ? LIST.noTime : dateTime(a.atUtcMs);
    const what = a.how === 'passed' ? LIST.passed(a.text) : a.text === '' ? '' : LIST.value(a.text, unit);
    return [what, LIST.seen(when, a.by)].filter((t) => t !== '').join(' · ');
  };
  const fieldName = ({ wants, unit }: KeptItem) => {
    const name = wants === 'number' ? LIST.number : LIST.text;
    return unit === '' ? name : LIST.inUnit(name, unit);
  };
  const press = (item: KeptItem) => {
    if (answerOf(item)?.how === 'done') {
      props.onSay(item, 'taken-back', '');
      return;
    }
    setAsking(null);
    props.onSay(item, 'done', item.wants === 'tick' ? '' : typedOf(item).trim().slice(0, MOST_SAID));
  };
  /** What it wants is typed first. */
  const waits = (item: KeptItem) => item.wants !== 'tick' && typedOf(item).trim() === '';
  const pass = (item: KeptItem, reason: string) => {
    setAsking(null);
    props.onSay(item, 'passed', reason);
  };
  return (
    <For each={groups()}>
      {(moment) => (
        <section class="checklist" aria-label={MOMENT[moment]}>
          <Show when={props.headed !== false}>
            <h3>{MOMENT[moment]}</h3>
          </Show>
          <For each={props.list.items.filter((i) => i.at === moment)}>
            {(item) => (
              <div class="check-row" classList={{ safety: item.safety }} data-testid={`row-${item.id}`}>
                <Show when={item.wants !== 'tick'}>
                  <div class="check-field">
                    <TextField
                      label={fieldName(item)}
                      value={typedOf(item)}
                      onValue={(text) => setTyped({ ...typed(), [item.id]: text.slice(0, MOST_SAID) })}
                      testId={`check-value-${item.id}`}
                    />
                  </div>
                </Show>
                <button
                  type="button"
                  class="check-key"
                  aria-pressed={answerOf(item)?.how === 'done'}
                  disabled={waits(item)}
                  data-testid={`check-${item.id}`}
                  onClick={() => press(item)}
                >
                  <span class="check-box" aria-hidden="true">
                    {answerOf(item) === null ? '' : answerOf(item)?.how === 'done' ? '✓' : '–'}
                  </span>
                  <span class="check-words">
                    <span>
                      {itemName(item.id, item.text)}
                      <Show when={item.safety}>
                        {' '}
                        <strong class="tag">{LIST.safety}</strong>
                      </Show>
                    </span>
                    <Show when={answerOf(item)}>
                      {(a) => <small data-testid={`told-${item.id}`}>{told(a(), item.unit)}</small>}
                    </Show>
                  </span>
                </button>
                <Show when={item.safety && answerOf(item) === null && asking() !== item.id}>
                  <Key
                    class="check-pass"
                    means={item.id}
                    hold
                    data-testid={`pass-${item.id}`}
                    aria-label={LIST.without(itemName(item.id, item.text))}
                    onPress={() => setAsking(item.id)}
                  >
                    <span>{LIST.goOn}</span>
                    <small>{FACE.hold}</small>
                  </Key>
                </Show>
                <Show when={asking() === item.id}>
                  <div class="check-why stack" data-testid={`why-${item.id}`}>
                    <p>{LIST.why}</p>
                    <For each={CHECK_REASONS}>
                      {(reason, i) => (
                        <Key
                          class="wide"
                          means={`${item.id} ${reason}`}
                          fresh
                          data-testid={`why-${item.id}-${i()}`}
                          onPress={() => pass(item, reason)}
                        >
                          {reason}
                        </Key>
                      )}
                    </For>
                    <OwnReason onSend={(reason) => pass(item, reason)} onBack={() => setAsking(null)} />
                  </div>
                </Show>
              </div>
            )}
          </For>
        </section>
      )}
    </For>
  );
}

function OwnReason(props: { onSend(reason: string): void; onBack(): void }) {
  const [text, setText] = createSignal('');
  return (
    <>
      <TextField label={FACE.ownReason} value={text()} onValue={setText} testId="check-reason" />
      <div class="row">
        <button type="button" class="button" onClick={() => props.onBack()}>
          {UI.cancel}
        </button>
        <button
          type="button"
          class="button grow"
          data-testid="check-reason-send"
          disabled={text().trim() === ''}
          onClick={() => props.onSend(text().trim().slice(0, MOST_SAID))}
        >
          {LIST.goOn}
        </button>
      </div>
    </>
  );
}
