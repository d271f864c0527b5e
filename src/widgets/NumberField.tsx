import { createEffect, createSignal, createUniqueId, Show } from 'solid-js';
import type { NumberBounds } from '../job/fields.ts';
import { type Kind, scaleOf } from '../units/display.ts';
import { parseNumber, parseQuantity } from '../units/parse.ts';
import { boundText, type DisplayUnits, METRIC, typed, typedQuantity } from '../words/format.ts';
import { NUMBER_FIELD } from '../words/issues.ts';
import { UI } from '../words/ui.ts';

export type NumberCheck =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly why: string };

/** Bounds are in the unit the program keeps (bar, °C, mm …), both ends included. */
export interface NumberRules extends Partial<NumberBounds> {
  /** false: there must be a number. */
  readonly open?: boolean;
}

/** A bound that was typed in another unit is the bound, not the least bit over it: 122 °F are 50 °C. */
function settled(value: number, { lo, hi }: NumberRules): number {
  for (const bound of [lo, hi])
    if (bound !== undefined && Math.abs(value - bound) <= 1e-9 * Math.max(1, Math.abs(bound))) return bound;
  return value;
}

/**
 * Reads what was typed: comma or point, a unit behind the number if it is of the right kind. Empty is 'not
 * known', never zero, where that may stand.
 */
export function readNumber(text: string, rules: NumberRules, units: DisplayUnits): NumberCheck {
  const { kind } = rules;
  if (text.trim() === '')
    return rules.open === false ? { ok: false, why: NUMBER_FIELD.empty } : { ok: true, value: null };
  const parsed = kind === undefined ? parseNumber(text) : parseQuantity(text, kind, units);
  if (!parsed.ok) return { ok: false, why: NUMBER_FIELD[parsed.code] };
  const value = settled(parsed.value, rules);
  if (rules.whole === true && !Number.isInteger(value)) return { ok: false, why: NUMBER_FIELD.whole };
  if (rules.lo !== undefined && value < rules.lo)
    return { ok: false, why: NUMBER_FIELD.tooLow(boundText(rules.lo, 'least', rules, units)) };
  if (rules.hi !== undefined && value > rules.hi)
    return { ok: false, why: NUMBER_FIELD.tooHigh(boundText(rules.hi, 'most', rules, units)) };
  return { ok: true, value };
}

/** The number as it stands in the field: the user's unit, as many digits as it was given. */
export function fieldText(value: number | null, kind: Kind | undefined, units: DisplayUnits): string {
  if (value === null) return '';
  return kind === undefined ? typed(value) : typedQuantity(kind, value, units);
}

/**
 * A number with its unit. A wrong entry is said at the field and is not passed on; the value that stands stays
 * until a right one is typed. `issue` is what the document's own check says of it, `question` what is asked back of a
 * number that is taken.
 */
export function NumberField(props: {
  label: string;
  /** How far it goes, and what it is told in: of a kind it is shown and read in the user's unit. */
  rules: NumberRules;
  units?: DisplayUnits;
  value: number | null;
  onValue(value: number | null): void;
  hint?: string;
  issue?: string | null;
  question?: string | null;
  testId?: string;
  disabled?: boolean;
}) {
  const id = createUniqueId();
  const units = () => props.units ?? METRIC;
  const shown = (v: number | null) => fieldText(v, props.rules.kind, units());
  const unit = () =>
    props.rules.kind === undefined ? (props.rules.unit ?? '') : scaleOf(props.rules.kind, units()).unit;
  const [text, setText] = createSignal(shown(props.value));
  const [why, setWhy] = createSignal<string | null>(null);
  let typing = false;
  createEffect(() => {
    const value = props.value;
    if (!typing) setText(shown(value));
  });
  const take = (raw: string) => {
    setText(raw);
    const result = readNumber(raw, props.rules, units());
    setWhy(result.ok ? null : result.why);
    if (result.ok) props.onValue(result.value);
  };
  const asked = () => props.question ?? null;
  const problem = () => why() ?? props.issue ?? null;
  return (
    <div class="field" classList={{ wrong: problem() !== null }}>
      <label for={id}>
        {props.label}
        <Show when={unit() !== ''}>
          <span class="field-unit"> {unit()}</span>
        </Show>
      </label>
      <input
        id={id}
        type="text"
        inputmode="decimal"
        autocomplete="off"
        value={text()}
        disabled={props.disabled ?? false}
        data-testid={props.testId}
        aria-invalid={problem() !== null}
        aria-describedby={`${id}-d`}
        placeholder={UI.notKnown}
        onFocus={() => {
          typing = true;
        }}
        onBlur={() => {
          typing = false;
          if (why() === null) setText(shown(props.value));
        }}
        onInput={(e) => take(e.currentTarget.value)}
      />
      <p
        class="field-note"
        classList={{ 'wrong-note': problem() === null && asked() !== null }}
        id={`${id}-d`}
        role={(problem() ?? asked()) === null ? undefined : 'alert'}
      >
        {problem() ?? asked() ?? props.hint ?? ''}
      </p>
    </div>
  );
}
