import { describe, expect, it } from 'vitest';
import { createCurrentBench, GREETING } from './testing/current.ts';

const NOWHERE = { greeting: null, state: null };

describe('the current run', () => {
  it('is an early one from the start: judged, told and kept for a record to come', async () => {
    const b = createCurrentBench();
    expect(b.current.live.record).toBeNull();
    b.greet();
    await b.stream(10, 0.5);
    expect(b.current.live.run.readings).toBe(10);
    expect(b.current.live.early?.samples).toBe(10);
    expect(b.current.live.watched.tally.readings).toBe(10);
    expect(b.posted.some((m) => m.m === 'event' && m.event.e === 'device')).toBe(true);
    expect(b.stirs()).toBe(12);
  });

  it('changes whole: whoever is told of a switch finds run, record, figures, device and clock of the new one', async () => {
    const b = createCurrentBench();
    b.greet();
    await b.stream(20, 0.5);
    const heard = b.current.live.early?.entries() ?? [];
    const { record } = await b.record('run-1');
    const seen: unknown[] = [];
    b.current.onSwitch(() => {
      const { live } = b.current;
      seen.push([live.record === record, live.run === record.run, live.watched === record.watched]);
      seen.push([b.current.device?.deviceId ?? null, b.current.nowUs(), live.early]);
    });
    const toldBefore = b.posted.length;
    b.current.startRecorded(record, heard, 5_000_000);
    expect(seen).toEqual([
      [true, true, true],
      ['TEST-1', 5_000_000, null],
    ]);
    // What was heard before is in the record, and is no news.
    expect(record.run.readings).toBe(20);
    expect(record.watched.tally.readings).toBe(20);
    expect(b.posted.length).toBe(toldBefore);
    await b.stream(1, 0.5);
    expect(record.run.nowUs).toBe(5_050_000);
    b.current.startEarly({ greeting: GREETING, state: 'streaming' });
    expect(seen.slice(2)).toEqual([
      [false, false, false],
      [null, 0, expect.anything()],
    ]);
  });

  it('its clock never stands before its newest entry', async () => {
    const b = createCurrentBench();
    const { record } = await b.record('run-1');
    b.current.startRecorded(record, [{ l: 'notice', tUs: 9_000_000, notice: { n: 'end' } }], 4_000_000);
    expect(b.current.nowUs()).toBe(9_000_000);
    await b.timers.run(5500);
    expect(b.current.nowUs()).toBe(9_500_000);
    expect(b.current.runUs(0)).toBe(9_000_000);
  });

  it('of a record without a device takes the first that it meets, until another run begins', async () => {
    const b = createCurrentBench();
    const { record } = await b.record('run-1');
    b.current.startRecorded(record, [], 0);
    expect(b.current.device?.deviceId ?? null).toBeNull();
    b.current.bindDevice({ deviceId: 'TEST-7', channels: [] });
    expect(b.current.device?.deviceId ?? null).toBe('TEST-7');
    b.current.startEarly(NOWHERE);
    expect(b.current.device?.deviceId ?? null).toBeNull();
  });

  it('an early one that follows knows the device, its link and its zero; of another device no zero', async () => {
    for (const deviceId of ['TEST-1', 'TEST-2']) {
      const b = createCurrentBench();
      b.greet();
      b.current.entry({ l: 'setup', tUs: b.current.nowUs(), setup: b.setup() });
      await b.stream(40, 0.01);
      b.current.entry({ l: 'command', tUs: b.current.nowUs(), command: { c: 'zero' } });
      expect(b.current.live.run.sensing.zero).not.toBeNull();
      const greeting = { ...GREETING, hello: { ...GREETING.hello, deviceId } };
      b.current.startEarly({ greeting, state: 'stopped' });
      const { run } = b.current.live;
      expect(run.hello?.deviceId).toBe(deviceId);
      expect(run.channels).toHaveLength(1);
      expect(run.sensing.zero === null).toBe(deviceId !== 'TEST-1');
      expect(b.current.live.early?.entries().map((e) => e.l)).toEqual(['frame', 'frame', 'notice']);
    }
  });

  it('counts its time also while nothing comes', async () => {
    const b = createCurrentBench();
    b.greet();
    await b.timers.run(3000);
    b.current.advance();
    expect(b.current.live.run.nextTick).toBe(31);
    b.current.notice({ n: 'link', state: 'lost' });
    expect(b.current.live.early?.entries().at(-1)?.tUs).toBe(3_000_000);
  });
});
