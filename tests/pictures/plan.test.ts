import { expect, it } from 'vitest';
import { LIVE_STATES } from '../stand/states.ts';
import { languagesOf, liveName, looksOf, looksWanted, pageLooks, SIZES, wantedOf } from './plan.ts';

it('plans every state on tablet and phone, and the chosen ones at all sizes and in all themes', () => {
  for (const state of LIVE_STATES) {
    const names = looksOf(state, false).map((look) => liveName(state, look));
    expect(names).toContain(`live-${state}-1180x820`);
    expect(names).toContain(`live-${state}-360x740`);
    expect(new Set(names).size).toBe(names.length);
  }
  const widths = new Set(looksOf('hold', true).map(({ size }) => size.width));
  expect(widths).toEqual(new Set(SIZES.map(({ width }) => width)));
  expect(new Set(looksOf('hold', true).map(({ theme }) => theme))).toEqual(new Set(['light', 'dark', 'sun']));
});

it('makes all without a word, and only what is named with one', () => {
  expect(wantedOf({})).toMatchObject({ states: LIVE_STATES, pages: true, sizes: null });
  const some = wantedOf({ states: 'hold,cue', sizes: '360x740,1600x1000', themes: 'dark' });
  expect(some).toMatchObject({ states: ['hold', 'cue'], pages: false });
  expect(looksWanted(looksOf('hold', false), some).map((l) => liveName('hold', l))).toEqual([
    'live-hold-360x740-dark',
    'live-hold-1600x1000-dark',
  ]);
  const pages = pageLooks(true);
  expect(looksWanted(pages, wantedOf({ pages: true }))).toBe(pages);
  expect(wantedOf({ stories: 'lift,kink' })).toMatchObject({
    states: ['lift', 'rebound-failed'],
    pages: false,
  });
});

it('names what it does not know', () => {
  expect(() => wantedOf({ states: 'hold,cosy' })).toThrow('no state cosy; there are: not-connected');
  expect(() => wantedOf({ stories: 'saga' })).toThrow('no story saga; there are: repair');
  expect(() => wantedOf({ themes: 'night' })).toThrow('no theme night');
  expect(() => wantedOf({ sizes: 'big' })).toThrow('big is no size like 1180x820');
  expect(languagesOf('de,fr')).toEqual(['de', 'fr']);
  expect(languagesOf('all')).toEqual(['en', 'de', 'es', 'fr']);
  expect(() => languagesOf('de,tlh')).toThrow('no language tlh; there are: en de es fr');
});
