import { cleanup, render, screen } from '@solidjs/testing-library';
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
