import { describe, expect, it } from 'vitest';
import { english } from '../testing/english.ts';

const { eventText } = english.events;
const { overrideText } = english.overrides;

describe('what was done in spite of advice', () => {
  it('is words, not codes', () => {
    expect(overrideText('stage:let-down')).toBe('Start let-down');
    expect(overrideText('shelve:cold')).toBe('Put aside: Too cold to cure');
    expect(overrideText('zero')).toBe('Go on without zero');
    expect(overrideText('packer-too-small')).toBe('The pipe is wider than this packer may grow');
  });

  it('shows a code that it does not know as it is', () => {
    expect(overrideText('no-relief')).toBe('no-relief');
    expect(overrideText('stage:elsewhere')).toBe('stage:elsewhere');
  });

  it('stands so in the list of events', () => {
    expect(eventText({ tUs: 0, e: 'override', what: 'stage:let-down', reason: 'late' })).toBe(
      'Gone on against advice (Start let-down): late',
    );
  });
});
