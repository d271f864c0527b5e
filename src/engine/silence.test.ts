import { expect, it } from 'vitest';
import { createSilenceWatch } from './silence.ts';

function bench() {
  const clock = { ms: 0, look: () => {}, ended: false };
  const watch = createSilenceWatch({
    nowMs: () => clock.ms,
    every(_ms, call) {
      clock.look = call;
      return () => {
        clock.ended = true;
      };
    },
  });
  const seen: boolean[] = [];
  const off = watch.on((silent) => seen.push(silent));
  const pass = (ms: number) => {
    clock.ms += ms;
    clock.look();
  };
  return { watch, clock, seen, off, pass };
}

it('two seconds without a word are silence, a word ends it, and each change is told once', () => {
  const { watch, seen, pass } = bench();
  pass(2000);
  expect(watch.silent).toBe(false);
  pass(1);
  pass(500);
  expect(watch.silent).toBe(true);
  watch.heard(false);
  watch.heard(false);
  pass(1900);
  expect(watch.silent).toBe(false);
  expect(seen).toEqual([true, false]);
});

it('a fall that is known need not be waited for; who went is told nothing', () => {
  const { watch, clock, seen, off } = bench();
  watch.fell();
  expect(watch.silent).toBe(true);
  off();
  watch.heard(false);
  expect(seen).toEqual([true]);
  watch.end();
  expect(clock.ended).toBe(true);
});

it('once a picture has come, beats and answers alone are no sign of life: what is shown is old', () => {
  const { watch, seen, pass } = bench();
  watch.heard(true);
  for (let ms = 0; ms < 60_000; ms += 500) {
    watch.heard(false);
    pass(500);
  }
  expect(watch.silent).toBe(true);
  watch.heard(true);
  expect(seen).toEqual([true, false]);
});
