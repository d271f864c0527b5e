import { type Accessor, createSignal } from 'solid-js';
import type { Stage } from '../../../watch/codes.ts';
import type { FACE } from '../../../words/face.ts';
import type { StageDoubt } from '../stage-doubts.ts';

export type Tab = keyof typeof FACE.tabs;

/** A step that something speaks against, waiting for its reason. */
export interface Asked {
  readonly to: Stage;
  readonly doubts: readonly StageDoubt[];
  /** Safety items that it waits for, by id. */
  readonly items?: readonly string[];
}

/** What the drawer shows. Closing it forgets nothing that was typed: its fields stay where they are, out of sight. */
export interface More {
  /** null: closed. */
  readonly tab: Accessor<Tab | null>;
  readonly asked: Accessor<Asked | null>;
  /** What is to get the focus, by its test id; said once. */
  readonly wanted: Accessor<string | null>;
  /** What is typed of the dial gauge, bar; null: nothing that is a pressure. */
  readonly gaugeBar: Accessor<number | null>;
  typeGauge(bar: number | null): void;
  open(tab: Tab, focus?: string): void;
  ask(asked: Asked): void;
  close(): void;
}

export function createMore(): More {
  const [tab, setTab] = createSignal<Tab | null>(null);
  const [asked, setAsked] = createSignal<Asked | null>(null);
  const [wanted, setWanted] = createSignal<string | null>(null);
  const [gaugeBar, typeGauge] = createSignal<number | null>(null);
  return {
    gaugeBar,
    typeGauge,
    tab,
    asked,
    wanted,
    open(next, focus) {
      setWanted(focus ?? null);
      setTab(next);
    },
    ask(next) {
      setAsked(next);
      setWanted(null);
      setTab('why');
    },
    close() {
      setTab(null);
      setAsked(null);
    },
  };
}
