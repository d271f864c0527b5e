import { type Accessor, createSignal, onCleanup, onMount } from 'solid-js';
import { inkOf, measureWith } from './canvas.ts';
import type { Measure } from './shape.ts';

/** Where there is no canvas: B612's mean advance, em. */
const ADVANCE = { plain: 0.55, bold: 0.6 } as const;
const estimate: Measure = (text, size, bold) => text.length * size * (bold ? ADVANCE.bold : ADVANCE.plain);

function measureNow(): Measure {
  const context = typeof document === 'undefined' ? null : document.createElement('canvas').getContext('2d');
  return context === null ? estimate : measureWith(context, inkOf(document.documentElement));
}

/** Widths of the page's own face, for drawings that are vectors; anew when the face has arrived. */
export function createMeasure(): Accessor<Measure> {
  const [measure, setMeasure] = createSignal<Measure>(measureNow(), { equals: false });
  onMount(() => {
    const again = () => setMeasure(() => measureNow());
    document.fonts?.addEventListener?.('loadingdone', again);
    onCleanup(() => document.fonts?.removeEventListener?.('loadingdone', again));
  });
  return measure;
}
