import { type Accessor, createMemo, createSignal } from 'solid-js';

const KEY = 'steadybar.sound-test';

export type Heard = 'heard' | 'not-heard';

const dayOf = (utcMs: number): string => {
  const d = new Date(utcMs);
  return `${d.getFullYear()}-${d.getMonth() + 1}-${d.getDate()}`;
};

function kept(): { readonly day: string; readonly heard: Heard } | null {
  try {
    const { day, heard } = Object(JSON.parse(localStorage.getItem(KEY) ?? '{}')) as Record<string, unknown>;
    return typeof day === 'string' && (heard === 'heard' || heard === 'not-heard') ? { day, heard } : null;
  } catch {
    return null;
  }
}

/** Whether the crew heard the alarm today, by its own word. Yesterday's tablet may have been turned down since. */
export function createSoundTest(nowMs: Accessor<number>): {
  /** null: nobody has said so today. */
  readonly today: Accessor<Heard | null>;
  answer(heard: Heard): void;
} {
  const [last, setLast] = createSignal(kept());
  const day = createMemo(() => dayOf(nowMs()));
  return {
    today: () => {
      const said = last();
      return said !== null && said.day === day() ? said.heard : null;
    },
    answer(heard) {
      const said = { day: day(), heard };
      setLast(said);
      try {
        localStorage.setItem(KEY, JSON.stringify(said));
      } catch {
        // Without storage it is asked again when the page is loaded again.
      }
    },
  };
}
