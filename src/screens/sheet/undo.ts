import { type Accessor, createEffect, createSignal, on } from 'solid-js';

/** Steps that can be taken back. */
const MOST = 50;
/** Keys at one field that follow each other within this time are one step, ms. */
const ONE_STEP_MS = 3000;

/** The dotted path of the one thing that differs; of several, how far down they agree. */
export function changedAt(a: unknown, b: unknown): string {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null || Array.isArray(a))
    return '';
  const [x, y] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  const differ = Object.keys({ ...x, ...y }).filter((k) => JSON.stringify(x[k]) !== JSON.stringify(y[k]));
  const [key] = differ;
  if (differ.length !== 1 || key === undefined) return '';
  const below = changedAt(x[key], y[key]);
  return below === '' ? key : `${key}.${below}`;
}

export interface Undo {
  readonly possible: Accessor<boolean>;
  undo(): void;
}

/**
 * What was entered is taken back field by field. Call under an owner.
 * @param put takes a document of before
 */
export function createUndo<T>(
  draft: Accessor<T>,
  put: (before: T) => void,
  nowMs: () => number = () => Date.now(),
): Undo {
  const [steps, setSteps] = createSignal<
    readonly { readonly before: T; readonly path: string; readonly atMs: number }[]
  >([]);
  let last = draft();
  let isUndoing = false;
  createEffect(
    on(
      draft,
      (now) => {
        const before = last;
        last = now;
        if (isUndoing) {
          isUndoing = false;
          return;
        }
        const path = changedAt(before, now);
        const top = steps().at(-1);
        const goesOn =
          top !== undefined && path !== '' && top.path === path && nowMs() - top.atMs < ONE_STEP_MS;
        setSteps((all) =>
          goesOn
            ? [...all.slice(0, -1), { ...top, atMs: nowMs() }]
            : [...all, { before, path, atMs: nowMs() }].slice(-MOST),
        );
      },
      { defer: true },
    ),
  );
  return {
    possible: () => steps().length > 0,
    undo() {
      const top = steps().at(-1);
      if (top === undefined) return;
      setSteps((all) => all.slice(0, -1));
      isUndoing = true;
      put(top.before);
    },
  };
}
