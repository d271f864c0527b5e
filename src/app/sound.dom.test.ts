import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PATTERNS } from './patterns.ts';
import { Sounder } from './sound.ts';

/** A stand-in for the platform's audio that counts what is started and stopped. */
class Tones {
  static started: number[] = [];
  static stopped = 0;
  static state = 'running';
  currentTime = 0;
  destination = {};
  onstatechange: (() => void) | null = null;
  get state() {
    return Tones.state;
  }
  resume() {
    return Promise.resolve();
  }
  createPeriodicWave() {
    return {};
  }
  createGain() {
    const gain = { setValueAtTime: () => {}, linearRampToValueAtTime: () => {} };
    return { gain, connect: (to: unknown) => to };
  }
  createOscillator() {
    return {
      frequency: { value: 0 },
      setPeriodicWave: () => {},
      connect: (to: unknown) => to,
      start: (at: number) => Tones.started.push(at),
      stop: (at?: number) => {
        if (at === undefined) Tones.stopped++;
      },
    };
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('AudioContext', Tones);
  Tones.started = [];
  Tones.stopped = 0;
  Tones.state = 'running';
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('sounder', () => {
  it('repeats a held pattern until it is let go, and stops at once then', () => {
    const sounder = new Sounder(
      () => 1,
      () => {},
    );
    sounder.unlock();
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(10);
    // The same again changes nothing: a moment comes thirty times a second.
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(10);
    vi.advanceTimersByTime((PATTERNS.urgent.everyS ?? 0) * 1000 + 1);
    expect(Tones.started).toHaveLength(20);
    sounder.hold(null);
    expect(Tones.stopped).toBeGreaterThan(0);
    vi.advanceTimersByTime(20_000);
    expect(Tones.started).toHaveLength(20);
  });

  it('a more urgent alarm takes over from a lesser one', () => {
    const sounder = new Sounder(
      () => 1,
      () => {},
    );
    sounder.unlock();
    sounder.hold('low');
    sounder.hold('urgent');
    expect(Tones.started).toHaveLength(PATTERNS.low.pulses.length + 10);
    expect(Tones.stopped).toBe(PATTERNS.low.pulses.length);
  });

  it('tells when the browser lets no sound out, and sounds as soon as it does', () => {
    const blocked: boolean[] = [];
    const sounder = new Sounder(
      () => 1,
      (b) => blocked.push(b),
    );
    Tones.state = 'suspended';
    sounder.unlock();
    expect(blocked.at(-1)).toBe(true);
    sounder.hold('high');
    expect(Tones.started).toHaveLength(0);
    Tones.state = 'running';
    sounder.unlock();
    expect(blocked.at(-1)).toBe(false);
    expect(Tones.started).toHaveLength(3);
  });
});
