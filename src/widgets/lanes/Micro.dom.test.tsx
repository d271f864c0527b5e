import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import { LyingLadder, MicroLadderPicture, Sparkline } from './Micro.tsx';

afterEach(cleanup);
const LIMITS = { ratedBar: 1.8, ceilingBar: 1.74, floorBar: 0.77 };

it('small pictures are named where they say something alone, and silent where words stand beside them', () => {
  const { container } = render(() => (
    <>
      <MicroLadderPicture ladder={{ bar: 1.5, state: 'known', limits: LIMITS }} label="Peak 1.50" />
      <LyingLadder ladder={{ bar: null, state: 'lost', limits: LIMITS }} />
      <Sparkline course={null} limits={null} />
    </>
  ));
  expect(screen.getAllByRole('img').map((e) => e.getAttribute('aria-label'))).toEqual(['Peak 1.50']);
  expect(container.querySelectorAll('svg[aria-hidden="true"]')).toHaveLength(2);
  // Dots are a pattern of this picture alone.
  const dots = container.querySelector('.lying-ladder pattern')!;
  expect(container.querySelectorAll(`.lying-ladder [fill="url(#${dots.id})"]`)).toHaveLength(1);
});

it('a scene made anew with the same shapes leaves the picture as it is', () => {
  const [bar, setBar] = createSignal(1.5);
  const { container } = render(() => (
    <MicroLadderPicture ladder={{ bar: bar(), state: 'known', limits: LIMITS }} />
  ));
  const before = [...container.querySelectorAll('rect')];
  setBar(1.5000001);
  setBar(1.4);
  const after = [...container.querySelectorAll('rect')];
  expect(after).toHaveLength(before.length);
  // The body alone is another.
  expect(after.filter((e, i) => e !== before[i])).toHaveLength(1);
});
