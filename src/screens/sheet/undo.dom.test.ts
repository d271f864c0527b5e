import { createRoot, createSignal } from 'solid-js';
import { describe, expect, it } from 'vitest';
import { changedAt, createUndo } from './undo.ts';

describe('undo on a sheet', () => {
  it('names the one thing that differs', () => {
    expect(changedAt({ a: 1, b: { c: 1, d: 2 } }, { a: 1, b: { c: 1, d: 3 } })).toBe('b.d');
    expect(changedAt({ a: [1] }, { a: [1, 2] })).toBe('a');
    expect(changedAt({ a: 1, b: 1 }, { a: 2, b: 2 })).toBe('');
    expect(changedAt({ h: null }, { h: { l: 1 } })).toBe('h');
  });

  it('takes keys at one field back as one step, another field’s or a later one’s by itself', async () => {
    let now = 0;
    const first = { title: '', bar: 1 };
    const made = createRoot((dispose) => {
      const [draft, setDraft] = createSignal(first);
      return {
        draft,
        setDraft,
        dispose,
        ...createUndo(
          draft,
          (before) => setDraft(before),
          () => now,
        ),
      };
    });
    const { draft, setDraft, undo, possible } = made;
    expect(possible()).toBe(false);
    for (const title of ['C', 'Cr', 'Cra']) setDraft((d) => ({ ...d, title }));
    setDraft((d) => ({ ...d, bar: 1.5 }));
    now = 10_000;
    setDraft((d) => ({ ...d, bar: 1.6 }));
    undo();
    expect(draft()).toEqual({ title: 'Cra', bar: 1.5 });
    undo();
    expect(draft()).toEqual({ title: 'Cra', bar: 1 });
    undo();
    expect(draft()).toBe(first);
    expect(possible()).toBe(false);
    undo();
    expect(draft()).toBe(first);
    made.dispose();
  });
});
