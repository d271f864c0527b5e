import type { JSX } from 'solid-js';

/** A key that lets a file be chosen; the same file may be chosen again. */
export function FileKey(props: {
  /** Look of the key beside `button`. */
  class?: string;
  /** Name of the field for a screen reader. */
  label: string;
  testId: string;
  /** Kinds of file, as the field's own `accept` takes them. */
  accept?: string;
  disabled: boolean;
  onFile(file: File): void;
  children: JSX.Element;
}) {
  let input!: HTMLInputElement;
  return (
    <>
      <button
        type="button"
        class={`button ${props.class ?? ''}`}
        disabled={props.disabled}
        onClick={() => input.click()}
      >
        {props.children}
      </button>
      <input
        ref={input}
        type="file"
        accept={props.accept}
        class="visually-hidden"
        tabIndex={-1}
        aria-label={props.label}
        data-testid={props.testId}
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          if (file !== undefined) props.onFile(file);
          e.currentTarget.value = '';
        }}
      />
    </>
  );
}
