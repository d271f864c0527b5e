import { createEffect, createMemo, createSignal, type JSX, on, onCleanup, splitProps } from 'solid-js';
import { createPressGuard, REST_MS } from './press-guard.ts';

/** So long a key is held that is not for a careless tap, ms (common practice, no source). */
export const HOLD_MS = 900;
/** Two presses of a screen reader within this stand for a hold, ms. */
const TWICE_MS = 4000;

export interface KeyProps extends Omit<JSX.ButtonHTMLAttributes<HTMLButtonElement>, 'onClick'> {
  /** What the key stands for: where that changes, what was begun before is not for it. */
  readonly means: string;
  /** It is to be held, not tapped. */
  readonly hold?: boolean | undefined;
  readonly restMs?: number | undefined;
  /** It stands where nothing stood: it rests at first too. */
  readonly fresh?: boolean | undefined;
  onPress(): void;
}

/**
 * A key in a place of its own. What it means may change under a finger, so that a press counts only where it began after
 * the change and a moment's look; a key that is held down repeats nothing. Where it has to be held its ground fills as
 * time goes, and letting go takes it back.
 */
export function Key(all: KeyProps) {
  const [props, rest] = splitProps(all, [
    'means',
    'hold',
    'restMs',
    'fresh',
    'onPress',
    'children',
    'class',
    'classList',
  ]);
  const guard = createPressGuard(props.restMs ?? REST_MS);
  if (props.fresh === true) guard.changed();
  const [holding, setHolding] = createSignal(false);
  const [resting, setResting] = createSignal(false);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let twiceUntil = 0;
  let element!: HTMLButtonElement;

  const letGo = () => {
    clearTimeout(timer);
    timer = undefined;
    setHolding(false);
  };
  const press = () => {
    if (guard.meant()) props.onPress();
  };
  const down = () => {
    guard.begun();
    if (props.hold !== true || timer !== undefined) return;
    setHolding(true);
    timer = setTimeout(() => {
      letGo();
      press();
    }, HOLD_MS);
  };

  // What it hangs on changes with each moment; only what the key stands for counts.
  const stands = createMemo(() => `${props.means} ${props.hold === true}`);
  createEffect(
    on(
      stands,
      () => {
        guard.changed();
        letGo();
        twiceUntil = 0;
        setResting(true);
        const over = setTimeout(() => setResting(false), props.restMs ?? REST_MS);
        onCleanup(() => clearTimeout(over));
      },
      { defer: true },
    ),
  );
  onCleanup(letGo);

  const isKey = (e: KeyboardEvent) => e.key === 'Enter' || e.key === ' ';
  return (
    <button
      type="button"
      {...rest}
      ref={element}
      class={`key ${props.class ?? ''}`}
      classList={{ ...props.classList, held: props.hold === true, holding: holding() }}
      aria-disabled={resting() ? true : undefined}
      onPointerDown={(e) => {
        if (e.button === 0) down();
      }}
      onPointerUp={letGo}
      onPointerLeave={letGo}
      onPointerCancel={letGo}
      onBlur={letGo}
      onContextMenu={(e) => props.hold === true && e.preventDefault()}
      onKeyDown={(e) => {
        if (!isKey(e)) return;
        // The browser would press again with every repeat.
        if (e.repeat || props.hold === true) e.preventDefault();
        if (!e.repeat) down();
      }}
      onKeyUp={(e) => {
        if (!isKey(e)) return;
        if (props.hold === true) e.preventDefault();
        letGo();
      }}
      onClick={(e) => {
        if (props.hold !== true) {
          press();
          return;
        }
        // A finger or a key that let go too early; a screen reader's press has no length, and counts when it comes twice.
        if (e.detail !== 0) return;
        const now = performance.now();
        if (now < twiceUntil) press();
        else twiceUntil = now + TWICE_MS;
      }}
    >
      {props.children}
    </button>
  );
}
