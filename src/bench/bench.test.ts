import { expect, it } from 'vitest';
import { compareSpan, guardLimit, sayHeard, tryGuard, tryWarm, tryZero } from './bench.ts';
import { createRigBench } from './testing/rig-bench.ts';

// The simulated device behind the whole engine: what it is, the rig knows (rig-feed.ts: 4-20 mA, 0-4 bar, 16 bits, 6 mbar off).

it('nothing is judged before enough has come', async () => {
  const b = await createRigBench();
  await b.seconds(2);
  const verdicts = b.verdicts();
  for (const point of [
    'lines',
    'rate',
    'lost',
    'clock',
    'restarts',
    'noise',
    'drift',
    'zero',
    'span',
    'guard',
  ])
    expect(verdicts[point], point).toBe('not-tried');
  expect(verdicts.supply).toBe('not-tried');
  expect(b.at('supply').reason).toBe('not-measured');
});

it('a sound device earns good verdicts, with the numbers that it was made with', async () => {
  const b = await createRigBench();
  await b.hand({ hand: 'couple', coupled: false });
  await b.seconds(16);
  expect(b.verdicts()).toMatchObject({
    lines: 'good',
    rate: 'good',
    lost: 'good',
    step: 'good',
    noise: 'good',
    drift: 'not-tried',
  });
  expect(b.at('rate').value).toBeCloseTo(50, 0);
  tryZero(b.bench);
  expect(b.at('zero')).toMatchObject({ reason: 'near' });
  expect(b.at('zero').value).toBeCloseTo(0.006, 2);
  // The zero is the bench's own.
  expect(b.engine.moment().view.standing).toContain('not-zeroed');
}, 20_000);

it('its guard is armed at 0.3 bar, trips when it is pumped over, and the crew says whether it was heard', async () => {
  const b = await createRigBench();
  await b.hand({ hand: 'couple', coupled: false });
  await b.seconds(3);
  tryZero(b.bench);
  const { channel, counts } = guardLimit(b.bench)!;
  const { result } = await b.engine.ask({
    q: 'bench-guard',
    verb: { verb: 'limit', channel, counts, mbar: 300 },
  });
  tryGuard(b.bench, result, counts);
  await b.seconds(3);
  expect(b.at('guard').reason).toBe('armed');
  await b.hand({ hand: 'end', shut: true });
  await b.hand({ hand: 'valve', open: 0.05 });
  await b.seconds(4);
  expect(b.at('guard').reason).toBe('not-asked');
  expect(b.at('guard').value).toBeGreaterThanOrEqual(0.295);
  expect(b.at('guard').value).toBeLessThan(0.35);
  sayHeard(b.bench, false);
  expect(b.at('guard').reason).toBe('not-heard');
  sayHeard(b.bench, true);
  expect(b.at('guard').reason).toBe('heard');
  // What is said of the limit afterwards changes nothing of it.
  await b.hand({ hand: 'valve', open: 0 });
  await b.hand({ hand: 'end', shut: false });
  await b.seconds(4);
  await b.engine.ask({ q: 'bench-guard', verb: { verb: 'disarm' } });
  await b.seconds(3);
  expect(b.at('guard').reason).toBe('heard');
}, 20_000);

it('refused lines, lost ones and restarts are counted, each for what it is', async () => {
  const b = await createRigBench();
  await b.seconds(12);
  await b.engine.ask({ q: 'rig-fault', fault: { fault: 'garbage', bytes: 400 } });
  await b.seconds(2);
  expect(b.at('lines').value).toBeGreaterThan(0);
  expect(b.bench.traffic.refused.size).toBeGreaterThan(0);
  expect(b.at('restarts').value).toBe(0);
  await b.engine.ask({ q: 'rig-fault', fault: { fault: 'reset' } });
  await b.seconds(4);
  expect(b.at('restarts')).toMatchObject({ reason: 'restarted', value: 1 });
  const lost = b.at('lost').value!;
  await b.engine.ask({ q: 'rig-fault', fault: { fault: 'silence', seconds: 2 } });
  await b.seconds(5);
  expect(b.at('lost').value! - lost).toBeGreaterThan(80);
  expect(b.at('lost').reason).toBe('many');
});

it('a reference is compared where the line rests, and told from one that differs', async () => {
  const b = await createRigBench();
  await b.hand({ hand: 'valve', open: 0.6 });
  await b.seconds(6);
  compareSpan(b.bench, 0.4, 0.05);
  expect(b.at('span').reason).toBe('not-still');
  await b.hand({ hand: 'valve', open: 0 });
  await b.hand({ hand: 'couple', coupled: false });
  await b.hand({ hand: 'end', shut: true });
  await b.hand({ hand: 'valve', open: 1 });
  await b.seconds(12);
  const { bar } = b.bench.reading!;
  compareSpan(b.bench, bar!, 0.05);
  expect(b.at('span')).toMatchObject({ reason: 'agrees', more: bar });
  compareSpan(b.bench, bar! - 0.4, 0.05);
  expect(b.at('span').reason).toBe('differs');
}, 20_000);

it('a probe is judged from when it is taken in the hand', async () => {
  const b = await createRigBench();
  await b.seconds(10);
  const [probe] = b.bench.warm;
  tryWarm(b.bench, probe!.channel);
  await b.seconds(5);
  expect(b.at('warm')).toMatchObject({ reason: 'holding', channel: probe!.channel });
});
