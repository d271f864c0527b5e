import { afterEach, expect, it, vi } from 'vitest';
import { Speaker, type SpeechState } from './speech.ts';

interface Said {
  readonly text: string;
  lang: string;
  voice: unknown;
  onstart: (() => void) | null;
  onerror: ((event: { error: string }) => void) | null;
}

function platform(voices: readonly { lang: string; localService: boolean }[]) {
  const said: Said[] = [];
  let changed: (() => void) | null = null;
  let have = voices;
  const synthesis = {
    getVoices: () => have,
    speak: (words: Said) => said.push(words),
    cancel: vi.fn(),
    addEventListener: (_: string, listener: () => void) => {
      changed = listener;
    },
    removeEventListener: () => {},
  };
  vi.stubGlobal('speechSynthesis', synthesis);
  vi.stubGlobal(
    'SpeechSynthesisUtterance',
    class {
      lang = '';
      voice = null;
      onstart = null;
      onerror = null;
      constructor(readonly text: string) {}
    },
  );
  return {
    said,
    come(next: typeof voices) {
      have = next;
      changed?.();
    },
  };
}

afterEach(() => void vi.unstubAllGlobals());

it('speaks by a voice of the page’s language, one of the tablet itself first', () => {
  const p = platform([
    { lang: 'de-DE', localService: true },
    { lang: 'en-GB', localService: false },
    { lang: 'en_US', localService: true },
  ]);
  const speaker = new Speaker('en', () => true, vi.fn());
  expect(speaker.state()).toBe('ready');
  speaker.say('Keep clear.');
  expect(p.said.map((s) => [s.text, s.lang])).toEqual([['Keep clear.', 'en_US']]);
});

it('without a voice nothing is spoken and it is told; one that comes later is told too', () => {
  const p = platform([{ lang: 'de-DE', localService: true }]);
  const told: SpeechState[] = [];
  const speaker = new Speaker(
    'en',
    () => true,
    (state) => told.push(state),
  );
  speaker.say('Keep clear.');
  expect(p.said).toEqual([]);
  expect(told).toEqual(['no-voice']);
  p.come([{ lang: 'en-GB', localService: true }]);
  expect(told.at(-1)).toBe('ready');
});

it('a browser without speech, a voice that fails, and one that is not wanted', () => {
  vi.stubGlobal('speechSynthesis', undefined);
  expect(new Speaker('en', () => true, vi.fn()).state()).toBe('no-voice');
  const p = platform([{ lang: 'en', localService: true }]);
  const told: SpeechState[] = [];
  const speaker = new Speaker(
    'en',
    () => true,
    (state) => told.push(state),
  );
  speaker.say('Air off.');
  p.said[0]!.onerror?.({ error: 'interrupted' });
  expect(told).toEqual([]);
  p.said[0]!.onerror?.({ error: 'synthesis-failed' });
  expect(told).toEqual(['no-voice']);
  const off = new Speaker('en', () => false, vi.fn());
  off.say('Air off.');
  expect([off.state(), p.said.length]).toEqual(['off', 1]);
});
