import { describe, expect, it } from 'vitest';
import { sharedParts } from './shared-parts.ts';

const view = (bar: number) => ({
  bar,
  limits: { ratedBar: 1.8, floorBar: null },
  alarms: [
    { alarm: 'rising', values: { bar } },
    { alarm: 'cold', values: { c: 4 } },
  ],
  standing: ['practice'],
});

describe('shared parts', () => {
  it('a picture that says the same is the one before', () => {
    const before = view(1);
    expect(sharedParts(before, view(1))).toBe(before);
  });

  it('where one number differs all else stays what it was, and says what the next one says', () => {
    const before = view(1);
    const next = sharedParts(before, view(2));
    expect(next).toEqual(view(2));
    expect(next).not.toBe(before);
    expect(next.limits).toBe(before.limits);
    expect(next.standing).toBe(before.standing);
    expect(next.alarms).not.toBe(before.alarms);
    expect(next.alarms[1]).toBe(before.alarms[1]);
  });

  it('neither value is written to', () => {
    const [before, next] = [Object.freeze(view(1)), Object.freeze(view(2))];
    sharedParts(before, next);
    expect(before).toEqual(view(1));
    expect(next).toEqual(view(2));
  });

  it.each<[string, unknown, unknown]>([
    ['a list that has become shorter', [1, 2], [1]],
    ['a part that is there no more', { a: 1, b: 2 }, { a: 1 }],
    ['a part that has come', { a: 1 }, { a: 1, b: undefined }],
    ['a part under another name', { a: undefined }, { b: undefined }],
    ['nothing before', null, { a: 1 }],
    ['nothing now', { a: 1 }, null],
    ['a list in place of an object', {}, []],
    ['an object in place of a list', [], {}],
  ])('%s is told', (_, before, next) => {
    const made = sharedParts(before, next);
    expect(made).toStrictEqual(next);
    expect(made).not.toBe(before);
  });
});
