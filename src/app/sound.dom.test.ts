import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PATTERNS } from './patterns.ts';
import { type SoundBlock, Sounder } from './sound.ts';
import { Tones } from './testing/tones.ts';

const sounderTelling = (told: SoundBlock[] = []) =>
  new Sounder(
    () => 1,
    (block) => told.push(block),
  );

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('AudioContext', Tones);
  Tones.reset();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('sounder', () => {
  it('repeats a held pattern until it is let go, and stops at once then', () => {
    const sounder = sounderTelling();
    sounder.unlock();
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(9);
    // The same again changes nothing: a moment comes thirty times a second.
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(9);
    vi.advanceTimersByTime((PATTERNS.urgent.everyS ?? 0) * 1000 + 1);
    expect(Tones.started).toHaveLength(18);
    sounder.hold(null);
    expect(Tones.stopped).toBeGreaterThan(0);
    vi.advanceTimersByTime(20_000);
    expect(Tones.started).toHaveLength(18);
  });

  it('an order is spoken after the tone, the next tone waits for it, and nothing is spoken alone', () => {
    const spoken: string[] = [];
    const shaken: string[] = [];
    const sounder = new Sounder(
      () => 1,
      () => {},
      {
        speaks: () => true,
        speak: (order) => spoken.push(order),
        shake: (sound) => shaken.push(sound),
      },
    );
    sounder.hold('urgent', () => 'Air off.');
    vi.advanceTimersByTime(20_000);
    // No press yet: no tone, so no word either. A shake needs no sound.
    expect(spoken).toEqual([]);
    expect(shaken.length).toBeGreaterThan(5);
    sounder.hold(null);
    sounder.unlock();
    Tones.started = [];
    sounder.hold('urgent', () => 'Air off.');
    expect(spoken).toEqual([]);
    vi.advanceTimersByTime(2000);
    expect(spoken).toEqual(['Air off.']);
    expect(Tones.started).toHaveLength(9);
    vi.advanceTimersByTime(3000);
    expect(Tones.started).toHaveLength(18);
    sounder.hold(null);
    vi.advanceTimersByTime(20_000);
    expect(spoken).toHaveLength(1);
  });

  it('a more urgent alarm takes over from a lesser one', () => {
    const sounder = sounderTelling();
    sounder.unlock();
    sounder.hold('low');
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(PATTERNS.low.pulses.length + 9);
    expect(Tones.stopped).toBe(PATTERNS.low.pulses.length);
  });

  it('tells when the browser lets no sound out, and sounds as soon as it does', () => {
    const told: SoundBlock[] = [];
    const sounder = sounderTelling(told);
    Tones.state = 'suspended';
    sounder.unlock();
    // Blocked is what it begins with: nothing new is told.
    expect(told).toEqual([]);
    sounder.hold('high');
    expect(Tones.started).toHaveLength(0);
    Tones.state = 'running';
    sounder.unlock();
    expect(told).toEqual([null]);
    expect(Tones.started).toHaveLength(2);
  });

  it('sound that the system took away is shown, asked for again by itself, and sounds at once when it is back', () => {
    const told: SoundBlock[] = [];
    const sounder = sounderTelling(told);
    sounder.unlock();
    Tones.state = 'interrupted';
    sounder.hold('urgent');
    vi.advanceTimersByTime(60_000);
    expect(told.at(-1)).toBe('system');
    expect(Tones.resumes).toBeGreaterThan(20);
    Tones.started = [];
    Tones.state = 'running';
    vi.advanceTimersByTime(1000);
    expect(told.at(-1)).toBeNull();
    expect(Tones.started).toHaveLength(9);
  });

  it('a running context whose clock stands is silent: shown, nothing is queued, and another context is tried', () => {
    const told: SoundBlock[] = [];
    const sounder = sounderTelling(told);
    sounder.unlock();
    vi.advanceTimersByTime(5000);
    expect(told).toEqual([null]);
    Tones.stands = true;
    vi.advanceTimersByTime(2000);
    expect(told.at(-1)).toBe('system');
    sounder.hold('urgent');
    vi.advanceTimersByTime(60_000);
    expect(Tones.started).toHaveLength(0);
    expect(Tones.made).toBeGreaterThan(3);
    expect(Tones.closed).toBe(Tones.made - 1);
    Tones.stands = false;
    vi.advanceTimersByTime(2000);
    expect(told.at(-1)).toBeNull();
    expect(Tones.started).toHaveLength(9);
  });

  it('one turn that fails in the sound system does not end the turns', () => {
    const told: SoundBlock[] = [];
    const sounder = sounderTelling(told);
    sounder.unlock();
    Tones.fails = true;
    sounder.hold('urgent');
    expect(told.at(-1)).toBe('system');
    Tones.fails = false;
    vi.advanceTimersByTime(4000);
    expect(told.at(-1)).toBeNull();
    expect(Tones.started.length).toBeGreaterThanOrEqual(10);
  });

  it('closed, it looks after nothing more', () => {
    const sounder = sounderTelling();
    sounder.unlock();
    sounder.hold('urgent');
    sounder.close();
    Tones.started = [];
    vi.advanceTimersByTime(60_000);
    expect([Tones.started.length, Tones.closed, Tones.made]).toEqual([0, 1, 1]);
  });
});
