import { Show } from 'solid-js';

/** Stands for the value while its place in the phrase is looked for; nothing typed or shown has it. */
const SLOT = '\u{F8FF}';

/** A whole phrase of the catalogue with its value set off, wherever the language has it. */
export function Phrase(props: { of: (value: string) => string; strong: string }) {
  const around = () => {
    const [before = '', after = ''] = props.of(SLOT).split(SLOT);
    return { before, after };
  };
  return (
    <>
      <Show when={around().before !== ''}>
        <span>{around().before}</span>
      </Show>
      <strong>{props.strong}</strong>
      <Show when={around().after !== ''}>
        <span>{around().after}</span>
      </Show>
    </>
  );
}
