import { beforeAll, describe, expect, it } from 'vitest';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, GuardFrame } from '../link/frames.ts';
import type { LogEntry } from './log.ts';
import { makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { jobFile, paper, RUN_LINE, RUN_SETUP, runPages, sealRun } from './testing/sealing.ts';

// A Setup that was signed by a known key, and from which every judgement follows: the device's own lines are beside it.

let { signer, verify } = {} as SealedFile;
beforeAll(async () => {
  ({ signer, verify } = await makeSealedFile());
});

const LINE = RUN_LINE;
const frame = (tUs: number, f: ChannelFrame | GuardFrame): LogEntry => ({ l: 'frame', tUs, frame: f });

async function verified(
  extra: readonly LogEntry[],
  setup: Setup = RUN_SETUP,
  lines: readonly ChannelFrame[] = [RUN_LINE],
) {
  const pages = runPages({ seconds: 2, setup, extra, lines });
  return verify(await jobFile(pages, await sealRun(pages, signer), signer, paper));
}
const AT = 3e7;

describe('scale of a Setup', () => {
  it('that the device gave is taken', async () => {
    expect((await verified([])).verdict).toBe('valid');
    // Another device answered first: one of its lines is enough to know it by.
    expect((await verified([], RUN_SETUP, [{ ...LINE, rawHi: 9 }, LINE])).verdict).toBe('valid');
  });

  it.each<Partial<ChannelFrame>>([
    { rawHi: 2 },
    { rawLo: -1 },
    { elLo: -1 },
    { elHi: 2 },
    { bits: 24 },
    { signal: 'voltage' },
    { index: 0 },
  ])('that no line of the device has is a change, whoever signed it: %o', async (other) => {
    const v = await verified([], RUN_SETUP, [{ ...LINE, ...other }]);
    expect([v.verdict, v.findings]).toEqual(['changed', [{ f: 'scale', channel: 1, page: 0, tUs: 0 }]]);
  });

  it('of a channel whose line was taken out is a change: a Setup has its channels from the device', async () => {
    const v = await verified([], RUN_SETUP, []);
    expect([v.verdict, v.findings]).toEqual(['changed', [{ f: 'scale', channel: 1, page: 0, tUs: 0 }]]);
  });

  it('of a channel that is not used is nobody’s', async () => {
    const setup = {
      ...RUN_SETUP,
      channels: RUN_SETUP.channels.map((c) => ({ ...c, role: 'unused' as const })),
    };
    expect((await verified([], setup, [{ ...LINE, rawHi: 2 }])).verdict).toBe('valid');
  });
});

describe('limit that the device guarded', () => {
  const guarded = (limitMbar: number | null, times: number): LogEntry[] =>
    Array.from({ length: times }, (_, i) =>
      frame(AT + i * 1e6, {
        t: 'G',
        tick: i,
        state: limitMbar === null ? 'unarmed' : 'armed',
        channel: limitMbar === null ? null : 0,
        limitCounts: limitMbar === null ? null : 5,
        limitMbar,
        sounder: 0,
      }),
    );
  const limitsOf = (ceilingBar: number): Setup => ({
    ...RUN_SETUP,
    limits: {
      ratedBar: ceilingBar + 0.02,
      uBar: 0.02,
      ceilingBar,
      workingBar: 1.5,
      seatBar: null,
      floorBar: null,
      headBar: null,
      freeInflationBar: null,
      seatingMarginBar: 0.1,
      noMargin: null,
      cue: true,
    },
  });
  const remarked = async (extra: readonly LogEntry[], ceilingBar: number) => {
    const v = await verified(extra, limitsOf(ceilingBar));
    expect(v.verdict).toBe('valid');
    return v.remarks.filter((r) => r.r === 'device-limit');
  };

  it('lower than the ceiling for a minute is said beside a verdict that is as good as before', async () => {
    expect(await remarked(guarded(2000, 60), 3)).toEqual([
      { r: 'device-limit', deviceBar: 2, ceilingBar: 3 },
    ]);
  });

  it('as the program arms it, none, one on its way, or a higher one with its own alarm, is not', async () => {
    expect(await remarked(guarded(2999, 60), 2.9999)).toEqual([]);
    expect(await remarked(guarded(null, 60), 3)).toEqual([]);
    expect(await remarked(guarded(2000, 59), 3)).toEqual([]);
    expect(await remarked(guarded(4000, 60), 3)).toEqual([]);
  });
});
