import { createUniqueId, For, type JSX, Show } from 'solid-js';

/** Text of one line, with the reason when it was not taken. */
export function TextField(props: {
  label: string;
  value: string;
  onValue(value: string): void;
  issue?: string | null;
  hint?: string;
  testId?: string;
  type?: 'text' | 'date';
  long?: boolean;
  /** Offered as it is typed. */
  offers?: readonly string[];
}) {
  const id = createUniqueId();
  const common = () => ({
    id,
    'data-testid': props.testId,
    'aria-invalid': (props.issue ?? null) !== null,
    'aria-describedby': `${id}-d`,
  });
  return (
    <div class="field" classList={{ wrong: (props.issue ?? null) !== null }}>
      <label for={id}>{props.label}</label>
      <Show
        when={props.long}
        fallback={
          <input
            {...common()}
            type={props.type ?? 'text'}
            autocomplete="off"
            list={(props.offers ?? []).length > 0 ? `${id}-l` : undefined}
            value={props.value}
            onInput={(e) => props.onValue(e.currentTarget.value)}
          />
        }
      >
        <textarea
          {...common()}
          rows="4"
          value={props.value}
          onInput={(e) => props.onValue(e.currentTarget.value)}
        />
      </Show>
      <Show when={(props.offers ?? []).length > 0}>
        <datalist id={`${id}-l`}>
          <For each={props.offers}>{(offer) => <option value={offer} />}</For>
        </datalist>
      </Show>
      <p class="field-note" id={`${id}-d`} role={props.issue ? 'alert' : undefined}>
        {props.issue ?? props.hint ?? ''}
      </p>
    </div>
  );
}

/** One of a few: a list that opens. Values are codes, words come from the catalogue. */
export function Choice<T extends string>(props: {
  label: string;
  value: T;
  options: readonly { readonly value: T; readonly text: string; readonly disabled?: boolean }[];
  onValue(value: T): void;
  hint?: string;
  issue?: string | null;
  testId?: string;
}) {
  const id = createUniqueId();
  return (
    <div class="field" classList={{ wrong: (props.issue ?? null) !== null }}>
      <label for={id}>{props.label}</label>
      <select
        id={id}
        data-testid={props.testId}
        aria-describedby={`${id}-d`}
        value={props.value}
        onChange={(e) => {
          const chosen = props.options.find((o) => o.value === e.currentTarget.value);
          if (chosen !== undefined) props.onValue(chosen.value);
        }}
      >
        <For each={props.options}>
          {(option) => (
            <option
              value={option.value}
              selected={option.value === props.value}
              disabled={option.disabled ?? false}
            >
              {option.text}
            </option>
          )}
        </For>
      </select>
      <p class="field-note" id={`${id}-d`} role={props.issue ? 'alert' : undefined}>
        {props.issue ?? props.hint ?? ''}
      </p>
    </div>
  );
}

/** All codes of a catalogue table as options, in the table's order; name T where the table is not typed by its codes. */
export function optionsOf<T extends string>(words: Record<T, string>): { value: T; text: string }[] {
  return (Object.entries(words) as [T, string][]).map(([value, text]) => ({ value, text }));
}

export function Tick(props: {
  label: string;
  checked: boolean;
  onChecked(checked: boolean): void;
  testId?: string;
}) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={props.checked}
        data-testid={props.testId}
        onChange={(e) => props.onChecked(e.currentTarget.checked)}
      />
      <span>{props.label}</span>
    </label>
  );
}

/** A part of a form under its own heading; folded parts open on demand. */
export function Part(props: {
  title: string;
  children: JSX.Element;
  folded?: boolean;
  id?: string;
  note?: string;
}) {
  return (
    <Show
      when={props.folded}
      fallback={
        <section class="panel part" id={props.id}>
          <h2>{props.title}</h2>
          <Show when={props.note}>
            <p class="muted small">{props.note}</p>
          </Show>
          {props.children}
        </section>
      }
    >
      <details class="panel part" id={props.id}>
        <summary>
          <h2>{props.title}</h2>
        </summary>
        <Show when={props.note}>
          <p class="muted small">{props.note}</p>
        </Show>
        {props.children}
      </details>
    </Show>
  );
}
