import type { JSX } from 'solid-js';
import type { Priority } from '../watch/codes.ts';

const SHAPE: { readonly [P in Priority]: () => JSX.Element } = {
  urgent: () => (
    <>
      <path d="M10 1h12l9 9v12l-9 9H10l-9-9V10z" fill="currentColor" />
      <path d="M14 7h4v12h-4zM14 22h4v4h-4z" class="cut" />
    </>
  ),
  high: () => (
    <>
      <path d="M16 2l15 28H1z" fill="currentColor" />
      <path d="M14.5 11h3v10h-3zM14.5 23.500h3v3.500h-3z" class="cut" />
    </>
  ),
  low: () => (
    <>
      <circle cx="16" cy="16" r="14" fill="currentColor" />
      <path d="M5 16a11 11 0 0 1 22 0z" class="cut" />
    </>
  ),
};

/** The shape of a priority: octagon, triangle, disc that is full to its half (a low one asks for action too: it is no 'i'). Decorative: the word always stands beside it. */
export function AlarmShape(props: { priority: Priority; size?: number }) {
  const size = () => props.size ?? 32;
  return (
    <svg
      class={`alarm-shape ${props.priority}`}
      width={size()}
      height={size()}
      viewBox="0 0 32 32"
      aria-hidden="true"
    >
      {SHAPE[props.priority]()}
    </svg>
  );
}
