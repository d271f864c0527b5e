import { createSignal, onCleanup, untrack } from 'solid-js';
import { type RecordRef, refText, type Sketch } from '../../evidence/messages.ts';
import type { Services } from '../context.ts';

/** Runs in small for the rows of a list. */
export interface Sketches {
  /** undefined: on its way; null: there is none, or it could not be had (the row stands without its picture). */
  of(ref: RecordRef): Sketch | null | undefined;
}

/** Each is asked for once, when its row is drawn first, one after the other: a long list asks for no more at a time. */
export function createSketches(app: Pick<Services, 'evidence'>): Sketches {
  const known = new Map<string, () => Sketch | null | undefined>();
  let queue: Promise<unknown> = Promise.resolve();
  let gone = false;
  onCleanup(() => {
    gone = true;
  });
  return {
    of(ref) {
      const id = refText(ref);
      let found = known.get(id);
      if (found === undefined) {
        const [sketch, setSketch] = createSignal<Sketch | null | undefined>(undefined);
        found = sketch;
        known.set(id, found);
        queue = queue.then(async () => {
          if (gone) return;
          const answer = await app.evidence({ q: 'sketch', ref }).catch(() => null);
          untrack(() => setSketch(answer));
        });
      }
      return found();
    },
  };
}
