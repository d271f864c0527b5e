import { createMemo, For, Index, Show } from 'solid-js';
import type { Layout } from '../layout.ts';
import type { TimeSlot } from '../time-slot.ts';
import { notePx, timeLabelPx, timeSize, UNIT_SHARE, wordsLineEm } from './sizes.ts';

/** The time that matters now: drawn unlike the pressure and smaller, with its rungs where it is a count. */
export function Time(props: { slot: TimeSlot; layout: Layout; pressurePx: number }) {
  const room = () => ({ rect: props.layout.time, pad: props.layout.pad, small: props.layout.small });
  const wide = () => props.layout.mode === 'wide';
  const facts = () => (wide() ? props.slot.facts : []);
  const size = () => timeSize(props.slot, room(), props.pressurePx, facts());
  // Rungs are as many as the count had seconds: those of a danger are known when it is first seen.
  const rungs = createMemo<{ code: string; left: number; of: number } | null>((before) => {
    const { rungs: r, code } = props.slot;
    if (r === null) return null;
    return { code, left: r.left, of: Math.max(r.of, before?.code === code ? before.of : 0) };
  }, null);
  return (
    <div
      class="slot slot-time"
      classList={{ block: props.slot.block !== null, alarmed: props.slot.alarmed }}
      data-testid="time-slot"
      data-code={props.slot.code}
    >
      <p class="slot-label strong" style={{ 'font-size': `${timeLabelPx(props.slot, room())}px` }}>
        {props.slot.label}
      </p>
      <Show when={props.slot.block}>
        {(lines) => (
          <p class="slot-words" style={{ 'font-size': `${size()}px`, 'line-height': wordsLineEm(lines()) }}>
            <For each={lines()}>{(line) => <span>{line} </span>}</For>
          </p>
        )}
      </Show>
      <Show when={props.slot.block === null && props.slot.big}>
        {(parts) => (
          <p class="slot-big" style={{ 'font-size': `${size()}px` }} data-testid="time-value">
            <Index each={parts()}>
              {(part) => (
                <>
                  <span class="slot-digits">{part()[0]}</span>
                  <Show when={part()[1] !== ''}>
                    <span class="slot-unit" style={{ 'font-size': `${UNIT_SHARE}em` }}>
                      {part()[1]}
                    </span>
                  </Show>
                </>
              )}
            </Index>
          </p>
        )}
      </Show>
      <div class="slot-foot">
        <Show when={props.slot.sub !== ''}>
          <p class="slot-note" style={{ 'font-size': `${notePx(room())}px` }}>
            {props.slot.sub}
          </p>
        </Show>
        <For each={facts()}>{(fact) => <p class="slot-fact">{fact}</p>}</For>
        <Show when={rungs()}>
          {(r) => (
            <div class="rungs" aria-hidden="true" data-left={r().left} data-of={r().of}>
              <Index each={Array.from({ length: r().of })}>
                {(_, i) => <i classList={{ out: i >= r().left }} />}
              </Index>
            </div>
          )}
        </Show>
      </div>
    </div>
  );
}
