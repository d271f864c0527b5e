import { expect, it } from 'vitest';
import { PLATE_LIMITS, PRESSURE_CHANNEL, setupOf } from '../../job/testing/givens.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import type { Manifest } from '../../record/manifest.ts';
import { english } from '../../words/testing/english.ts';
import { exceptionsOf } from './exceptions.ts';

it('begins with what speaks against the repair, before what merely is not known of it', () => {
  const { EXCEPTION } = english.certificate;
  const manifest = {
    events: [],
    end: 'interrupted',
    resumedUs: [],
    pages: { damage: [] },
    signer: { previous: null },
  } as unknown as Manifest;
  const told = exceptionsOf({
    manifest,
    bundle: null,
    setup: setupOf({ limits: PLATE_LIMITS }),
    peakBar: PLATE_LIMITS.ratedBar + 0.1,
    firstUs: 0,
    words: english,
  });
  expect(told.slice(0, 3)).toEqual([
    EXCEPTION.overRated(PLATE_LIMITS.ratedBar + 0.1),
    EXCEPTION.noHold,
    EXCEPTION.interrupted,
  ]);
  const unknown = [EXCEPTION.noFloor, EXCEPTION.noWater, EXCEPTION.noFree, EXCEPTION.noGauge];
  for (const text of unknown) expect(told.indexOf(text)).toBeGreaterThan(2);
  expect(new Set(told).size).toBe(told.length);
});

it('says of which kind the source was, and calls a plain line unchecked; of a device of the protocol nothing', () => {
  const { EXCEPTION } = english.certificate;
  const told = (maps: Manifest['maps']): readonly string[] => {
    const manifest = {
      events: [],
      end: 'ended',
      resumedUs: [],
      pages: { damage: [] },
      signer: { previous: null },
      ...(maps === undefined ? {} : { maps }),
    } as unknown as Manifest;
    return exceptionsOf({ manifest, bundle: null, setup: null, peakBar: null, firstUs: 0, words: english });
  };
  expect(EXCEPTION.readBy.columns).toMatch(/^Unchecked line/);
  expect(told([lineMap()])).toContain(EXCEPTION.readBy.columns);
  // Two maps of a kind are told once.
  const both = told([busMap(), busMap({ baud: 9600 })]);
  expect(both.filter((t) => t === EXCEPTION.readBy.registers)).toHaveLength(1);
  for (const text of Object.values(EXCEPTION.readBy)) expect(told(undefined)).not.toContain(text);
});

it('a second pressure sensor whose zero was not taken is said, whatever became of the first’s', () => {
  const { EXCEPTION } = english.certificate;
  const channels = [PRESSURE_CHANNEL, { ...PRESSURE_CHANNEL, index: 5, role: 'outlet-pressure' as const }];
  const told = (taken: boolean | null, own = channels) => {
    const second =
      taken === null ? {} : { second: { taken, offsetBar: 0.004, reason: taken ? 'ok' : 'noisy' } };
    const zero = { tUs: 1, e: 'zero', taken: true, offsetBar: 0, reason: 'ok', ...second };
    const manifest = {
      events: [zero],
      end: 'ended',
      resumedUs: [],
      pages: { damage: [] },
      signer: { previous: null },
    } as unknown as Manifest;
    const setup = setupOf({ channels: own });
    return exceptionsOf({ manifest, bundle: null, setup, peakBar: null, firstUs: 0, words: english });
  };
  expect(told(false)).toContain(EXCEPTION.noSecondZero);
  expect(told(null)).toContain(EXCEPTION.noSecondZero);
  expect(told(true)).not.toContain(EXCEPTION.noSecondZero);
  expect(told(null, [PRESSURE_CHANNEL])).not.toContain(EXCEPTION.noSecondZero);
});

it('names the second adapter, and says when its temperatures are missing', () => {
  const { EXCEPTION } = english.certificate;
  const beside = (what: string, s: number, seconds: number | null) => ({
    e: 'beside',
    tUs: s * 1e6,
    what,
    seconds,
  });
  const told = (events: readonly object[]) =>
    exceptionsOf({
      manifest: {
        events,
        end: 'ended',
        resumedUs: [],
        pages: { damage: [] },
        signer: { previous: null },
        beside: [
          { deviceId: 'WARM-1', map: lineMap() },
          { deviceId: 'SB-9', map: null },
        ],
      } as unknown as Manifest,
      bundle: null,
      setup: null,
      peakBar: null,
      firstUs: 0,
      words: english,
    });
  const well = told([beside('greeted', 0, null)]);
  expect(well).toContain(EXCEPTION.besideBy.columns('WARM-1'));
  expect(well).toContain(EXCEPTION.besideDevice('SB-9'));
  expect(well.join()).not.toContain('missing once');
  const gone = told([beside('port', 60, 0.4), beside('back', 80, 20), beside('silent', 125, 5)]);
  expect(gone).toContain(EXCEPTION.besideGap(1, 20));
  expect(gone).toContain(EXCEPTION.besideGone('2:05'));
});
