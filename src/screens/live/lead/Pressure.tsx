import { Show } from 'solid-js';
import type { Trust } from '../../../widgets/trust.ts';
import type { Layout } from '../layout.ts';
import type { PressureSlot } from '../pressure-slot.ts';
import { digitSize, hasComma, isAiry, labelPx, notePx, tagSize, unitPx } from './sizes.ts';

/** The line's pressure: the largest number of the page, and what says how it is to be read. */
export function Pressure(props: { slot: PressureSlot; trust: Trust; layout: Layout; unit: string }) {
  const room = () => ({ rect: props.layout.pressure, pad: props.layout.pad, small: props.layout.small });
  const isNumber = () => props.slot.face !== 'lost' && props.slot.face !== 'none';
  return (
    <div class="slot" data-face={props.slot.face} data-testid="pressure" data-trust={props.trust}>
      <p class="slot-label" style={{ 'font-size': `${labelPx(room())}px` }}>
        {props.slot.label}
      </p>
      <p
        class="slot-big"
        classList={{ airy: isAiry(props.slot, room()), 'with-comma': hasComma(props.slot) }}
        style={{ 'font-size': `${digitSize(props.slot, props.unit, room())}px` }}
      >
        <span class="slot-digits" data-testid="pressure-value">
          {props.slot.digits}
        </span>
        <Show when={isNumber()}>
          <span class="slot-unit" style={{ 'font-size': `${unitPx(room())}px` }}>
            {props.unit}
          </span>
        </Show>
      </p>
      <Show when={props.slot.tag}>
        {(tag) => (
          <p class="slot-tag" style={{ 'font-size': `${tagSize(props.slot, room())}px` }}>
            {tag()}
          </p>
        )}
      </Show>
      <p
        class="slot-note"
        classList={{ 'visually-hidden': props.layout.small || props.slot.tag !== null }}
        data-testid="pressure-note"
        style={{ 'font-size': `${notePx(room())}px` }}
      >
        {props.slot.note}
      </p>
    </div>
  );
}
