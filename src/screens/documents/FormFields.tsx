import type { JSX } from 'solid-js';
import { codesAt, type Documents, type JobDocumentKind, numberAt, textAt } from '../../job/documents.ts';
import type { At, PathTo } from '../../job/paths.ts';
import { Choice, TextField, Tick } from '../../widgets/Fields.tsx';
import { NumberField, type NumberRules } from '../../widgets/NumberField.tsx';
import { useServices } from '../context.ts';
import { EMPTY, type Form, typedAt } from './form.ts';

/**
 * Fields of a form by the path of what they edit. How far a number goes, its unit, the codes of a choice and whether a
 * field may stay empty come from the document's schema; a form adds the words.
 */

interface FieldProps<K extends JobDocumentKind> {
  readonly form: Form<K>;
  readonly label: string;
  readonly hint?: string;
}

/** The name by which tests find a field. */
const testId = (form: Form<JobDocumentKind>, path: string): string => `${form.kind}-${path}`;

/** A number. An empty entry is 'not known' where that may stand; elsewhere it is wrong, which is said. */
export function FormNumber<K extends JobDocumentKind>(
  props: FieldProps<K> & {
    readonly at: PathTo<Documents[K], 'number'>;
    /** Where the schema does not say what the number is told in, because another field of the document does. */
    readonly told?: Pick<NumberRules, 'kind' | 'unit'>;
    /** What is asked back of a number that is taken; null: nothing. */
    readonly question?: string | null;
    /** Where more follows from an entry than the number itself. */
    onValue?(value: number | null): void;
  },
): JSX.Element {
  const app = useServices();
  const field = () => numberAt(props.form.kind, props.at);
  const value = () => typedAt(props.form.read(props.at));
  const take = (v: number | null) => {
    if (props.onValue !== undefined) props.onValue(v);
    else props.form.write(props.at, v ?? (field().open ? null : EMPTY));
  };
  return (
    <NumberField
      label={props.label}
      hint={props.hint ?? ''}
      rules={{
        ...field(),
        ...props.told,
        open: field().open || !props.form.inUse || props.onValue !== undefined,
      }}
      units={app.units()}
      value={value()}
      onValue={take}
      issue={props.form.issue(props.at)}
      question={props.question ?? null}
      testId={testId(props.form, props.at)}
    />
  );
}

/** A text; where it may be null an empty entry is null. */
export function FormText<K extends JobDocumentKind>(
  props: FieldProps<K> & {
    readonly at: PathTo<Documents[K], 'text'>;
    readonly type?: 'text' | 'date';
    readonly long?: boolean;
  },
): JSX.Element {
  const value = () => {
    const v = props.form.read(props.at);
    return typeof v === 'string' ? v : '';
  };
  const open = () => textAt(props.form.kind, props.at).open;
  return (
    <TextField
      label={props.label}
      hint={props.hint ?? ''}
      type={props.type ?? 'text'}
      long={props.long ?? false}
      value={value()}
      onValue={(text) => props.form.write(props.at, text === '' && open() ? null : text)}
      issue={props.form.issue(props.at)}
      testId={testId(props.form, props.at)}
    />
  );
}

/** Yes or no. */
export function FormTick<K extends JobDocumentKind>(
  props: FieldProps<K> & { readonly at: PathTo<Documents[K], 'flag'> },
): JSX.Element {
  return (
    <Tick
      label={props.label}
      checked={props.form.read(props.at) === true}
      onChecked={(on) => props.form.write(props.at, on)}
      testId={testId(props.form, props.at)}
    />
  );
}

/** One code of those that the schema has, each with its word. */
export function FormChoice<K extends JobDocumentKind, P extends PathTo<Documents[K], 'code'>>(
  props: FieldProps<K> & {
    readonly at: P;
    readonly words: Readonly<Record<At<Documents[K], P> & (string | number), string>>;
    /** What stands chosen where the document says nothing yet. */
    readonly unset?: At<Documents[K], P>;
    /** Where more follows from a choice than the code itself. */
    onValue?(value: At<Documents[K], P>): void;
  },
): JSX.Element {
  type Code = At<Documents[K], P> & (string | number);
  const codes = () => codesAt(props.form.kind, props.at) as readonly Code[];
  const take = (text: string) => {
    const code = codes().find((c) => String(c) === text);
    if (code === undefined) return;
    if (props.onValue !== undefined) props.onValue(code);
    else props.form.write(props.at, code);
  };
  return (
    <Choice
      label={props.label}
      hint={props.hint ?? ''}
      value={String(props.form.read(props.at) ?? props.unset)}
      options={codes().map((c) => ({ value: String(c), text: props.words[c] }))}
      onValue={take}
      issue={props.form.issue(props.at)}
      testId={testId(props.form, props.at)}
    />
  );
}
