import { For, type JSX } from 'solid-js';
import type { Documents, JobDocumentKind } from '../../job/documents.ts';
import type { Form } from './form.ts';

interface Place<K extends JobDocumentKind, P extends string> {
  /** The part of the form where it stands. */
  readonly in: P;
  readonly edit: (form: Form<K>) => JSX.Element;
}

/**
 * Where each member of a document is edited, in the order of the form; null: nowhere, or with another member. A member
 * that is new is missing here until its place is known.
 */
export type MembersOf<K extends JobDocumentKind, P extends string> = {
  readonly [M in keyof Documents[K]]-?: Place<K, P> | null;
};

/** The fields of the members that stand in one part of a form. */
export function Members<K extends JobDocumentKind, P extends string>(props: {
  readonly form: Form<K>;
  readonly of: MembersOf<K, P>;
  readonly in: P;
}): JSX.Element {
  const places = () =>
    Object.values<Place<K, P> | null>(props.of).filter((place) => place !== null && place.in === props.in);
  return <For each={places()}>{(place) => place?.edit(props.form)}</For>;
}
