import { createEffect, createSignal, createUniqueId, Show } from 'solid-js';
import { type Kind, METRIC, scaleOf, showText } from '../units/display.ts';
import { parseNumber, parseQuantity } from '../units/parse.ts';
import type { DisplayUnits } from '../words/format.ts';
import { NUMBER_FIELD } from '../words/issues.ts';
import { UI } from '../words/ui.ts';

export type NumberCheck =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly why: string };

/** Bounds are in the unit the program keeps (bar, °C, mm …), both ends included. */
export interface NumberRules {
  readonly lo?: number | undefined;
  readonly hi?: number | undefined;
  readonly whole?: boolean | undefined;
}

/** A bound in the user's own unit, so that the reason can be acted on. */
function said(bound: number, kind: Kind | undefined, units: DisplayUnits): string {
  return kind === undefined ? String(bound) : showText(kind, bound, units);
}

/**
 * Reads what was typed: comma or point, a unit behind the number if it is of the right kind. Empty is 'not
 * known', never zero.
 */
export function readNumber(
  text: string,
  rules: NumberRules,
  kind: Kind | undefined,
  units: DisplayUnits,
): NumberCheck {
  if (text.trim() === '') return { ok: true, value: null };
  const parsed = kind === undefined ? parseNumber(text) : parseQuantity(text, kind, units);
  if (!parsed.ok) return { ok: false, why: NUMBER_FIELD[parsed.code] };
  const { value } = parsed;
  if (rules.whole === true && !Number.isInteger(value)) return { ok: false, why: NUMBER_FIELD.whole };
  if (rules.lo !== undefined && value < rules.lo)
    return { ok: false, why: NUMBER_FIELD.tooLow(said(rules.lo, kind, units)) };
  if (rules.hi !== undefined && value > rules.hi)
    return { ok: false, why: NUMBER_FIELD.tooHigh(said(rules.hi, kind, units)) };
  return { ok: true, value };
}

/** The number as it stands in the field: the user's unit, as many digits as it was given. */
export function fieldText(value: number | null, kind: Kind | undefined, units: DisplayUnits): string {
  if (value === null) return '';
  if (kind === undefined) return String(value);
  const scale = scaleOf(kind, units);
  return String(Number((value * scale.factor + scale.shift).toFixed(scale.digits + 1)));
}

/**
 * A number with its unit. A wrong entry is said at the field and is not passed on; the value that stands stays
 * until a right one is typed. `issue` is what the document's own check says of it.
 */
export function NumberField(props: {
  label: string;
  /** A quantity is shown and read in the user's unit; without it the number stands for itself. */
  kind?: Kind;
  units?: DisplayUnits;
  unit?: string;
  value: number | null;
  onValue(value: number | null): void;
  rules?: NumberRules;
  hint?: string;
  issue?: string | null;
  testId?: string;
  disabled?: boolean;
}) {
  const id = createUniqueId();
  const units = () => props.units ?? METRIC;
  const shown = (v: number | null) => fieldText(v, props.kind, units());
  const unit = () => props.unit ?? (props.kind === undefined ? '' : scaleOf(props.kind, units()).unit);
  const [text, setText] = createSignal(shown(props.value));
  const [why, setWhy] = createSignal<string | null>(null);
  let typing = false;
  createEffect(() => {
    const value = props.value;
    if (!typing) setText(shown(value));
  });
  const take = (raw: string) => {
    setText(raw);
    const result = readNumber(raw, props.rules ?? {}, props.kind, units());
    setWhy(result.ok ? null : result.why);
    if (result.ok) props.onValue(result.value);
  };
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
      <p class="field-note" id={`${id}-d`} role={problem() === null ? undefined : 'alert'}>
        {problem() ?? props.hint ?? ''}
      </p>
    </div>
  );
}
