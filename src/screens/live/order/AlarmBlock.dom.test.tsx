import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import type { AlarmView } from '../../../watch/view.ts';
import { METRIC } from '../../../words/format.ts';
import { VERBS } from '../../../words/orders.ts';
import { UI } from '../../../words/ui.ts';
import { layoutOf } from '../layout.ts';
import { alarm, sceneOf } from '../testing/scene.ts';
import { WINDOWS } from '../testing/windows.ts';
import { AlarmBlock } from './AlarmBlock.tsx';

afterEach(cleanup);

function shown(
  first: AlarmView,
  form: 'urgent' | 'high' | 'was',
  {
    others = [],
    size = [1180, 820] as readonly [number, number],
    practice = false,
  }: { others?: AlarmView[]; size?: readonly [number, number]; practice?: boolean } = {},
) {
  const [now, setNow] = createSignal(first);
  render(() => (
    <AlarmBlock
      alarm={now()}
      form={form}
      order={VERBS[now().alarm](now(), sceneOf({ stage: 'inflate' }).view, METRIC)}
      layout={layoutOf(size[0], size[1], practice)}
      others={others}
      more={false}
    />
  ));
  return setNow;
}
const OVER = alarm({ alarm: 'over-rated', values: { overBar: 1.2, ratedBar: 1.8, bar: 3 } });
const text = (id: string) => screen.getByTestId(id).textContent?.replaceAll('\u00a0', ' ').trim();

describe('an alarm on the stage', () => {
  it.each(WINDOWS)(
    'at %i x %i it is shape, verb, figures and a sentence with the priority’s word',
    (...size) => {
      shown(OVER, 'urgent', { size });
      expect(text('verb')).toBe('AIR OFF OPEN VENT');
      const block = screen.getByTestId('alarm-over-rated');
      expect(block.querySelector('.alarm-block-shape svg')).not.toBeNull();
      expect([...block.querySelectorAll('dt')].map((e) => e.textContent)).toEqual(['Over rated by', 'Rated']);
      expect([...block.querySelectorAll('dd')].map((e) => e.textContent)).toEqual(['1.20', '1.80']);
      expect(block.querySelector('.sentence')?.textContent).toMatch(/^Urgent\. Over rated by/);
    },
  );

  it.each(WINDOWS)('at %i x %i one of a practice bears the word once, a real one never', (...size) => {
    for (const form of ['urgent', 'high', 'was'] as const)
      for (const practice of [true, false]) {
        shown(OVER, form, { size, practice });
        const words = screen.queryAllByTestId('practice-word').map((e) => e.textContent);
        expect(words).toEqual(practice ? [UI.practiceWord] : []);
        expect(text('verb')).not.toContain(UI.practiceWord);
        cleanup();
      }
  });

  it('a figure that counts is written anew in its place: nothing is taken away and put back', () => {
    const setNow = shown(OVER, 'urgent');
    const figures = [...document.querySelectorAll('dd')];
    const verb = [...screen.getByTestId('verb').children];
    setNow({ ...OVER, values: { ...OVER.values, overBar: 1.3 } });
    expect([...document.querySelectorAll('dd')]).toEqual(figures);
    expect(figures[0]?.textContent).toBe('1.30');
    expect([...screen.getByTestId('verb').children]).toEqual(verb);
  });

  it('one that is over orders no hand to a valve: what it was stands where the order stood', () => {
    shown({ ...OVER, state: 'returned' }, 'was');
    expect(text('verb')).toMatch(/^Ended: acknowledge it\. Was: Over the rated pressure/);
    expect(screen.getByTestId('alarm-over-rated').textContent).not.toMatch(/AIR OFF|OPEN VENT|\bnow\b/);
    expect(document.querySelectorAll('dd')).toHaveLength(0);
  });

  it('the next alarm stands in the sentence with its own shape', () => {
    shown(OVER, 'urgent', { others: [alarm({ alarm: 'leaking', priority: 'high' })] });
    const next = document.querySelector('.alarm-next');
    expect(next?.querySelector('svg')).not.toBeNull();
    expect(next?.textContent).not.toBe('');
  });
});
