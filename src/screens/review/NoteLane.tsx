import { createSignal, For, onCleanup, onMount } from 'solid-js';
import { REVIEW } from '../../words/review.ts';
import { groupNotes, type Note, type NoteGroup, worstOf } from './notes.ts';

/** Between two marks of one digit, and of a range of numbers, px. */
const APART_PX = 46;

/** The notes' numbers over the trace, each with a line down to its time. */
export function NoteLane(props: {
  notes: Iterable<Note>;
  view: { readonly fromS: number; readonly toS: number };
  /** Edges of the plot inside the element, px from its left and right. */
  box: { readonly left: number; readonly right: number };
  onShow(note: Note): void;
}) {
  let host!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  onMount(() => {
    const watch = new ResizeObserver(() => setWidth(host.clientWidth));
    watch.observe(host);
    onCleanup(() => watch.disconnect());
  });
  const groups = () =>
    groupNotes(props.notes, props.view, Math.max(0, width() - props.box.left - props.box.right), APART_PX);
  const numbers = ({ notes }: NoteGroup) => {
    const [first, last] = [notes[0]!.number, notes.at(-1)!.number];
    return first === last ? String(first) : REVIEW.noteRange(first, last);
  };
  return (
    <div class="note-lane" ref={host}>
      <For each={groups()}>
        {(group) => (
          <div class="note-at" style={{ left: `${props.box.left + group.x}px` }}>
            <button
              type="button"
              class={`note-number ${worstOf(group.notes) ?? ''}`}
              aria-label={REVIEW.noteLabel(numbers(group))}
              onClick={() => props.onShow(group.notes[0]!)}
            >
              {numbers(group)}
            </button>
          </div>
        )}
      </For>
    </div>
  );
}
