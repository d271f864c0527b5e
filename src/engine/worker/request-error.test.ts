import { expect, it } from 'vitest';
import { detailOf, RequestError } from './request-error.ts';

it('a refusal’s detail stands beside its code; of anything else it is what was thrown', () => {
  expect(detailOf(new RequestError('missing', 'no run r-1'))).toBe('no run r-1');
  expect(detailOf(new RangeError('too long'))).toBe('too long');
  expect(detailOf('a word')).toBe('a word');
  expect(detailOf(null)).toBe('null');
});
