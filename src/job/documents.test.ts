import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHECK } from '../words/en/checks.ts';
import { DEMO } from '../words/testing/demo.ts';
import { ownCopy } from './checklist-document.ts';
import { type Documents, isDocumentKind, type JobDocumentKind, parseDocument } from './documents.ts';
import type { DocumentIssue } from './issues.ts';
import { blankJob } from './job-document.ts';
import { blankPacker } from './packer-document.ts';
import { blankResin } from './resin-document.ts';
import { blankSensor } from './sensor-document.ts';
import { defaultSettings } from './settings-defaults.ts';
import { benchRecord } from './testing/bench-record.ts';
import { busMap, lineMap } from './testing/maps.ts';

const KINDS: readonly JobDocumentKind[] = [
  'job',
  'packer',
  'resin',
  'sensor',
  'settings',
  'registers',
  'columns',
  'checklist',
  'bench',
];

const good: Documents = {
  job: DEMO.job,
  packer: DEMO.packer!.document,
  resin: DEMO.resin!.document,
  sensor: DEMO.sensors[0]!.document,
  settings: defaultSettings(),
  registers: busMap(),
  columns: lineMap(),
  checklist: ownCopy('Our list', CHECK),
  bench: benchRecord(),
};

/** As a sheet of before had it: ticks of the one list that there was; and what is read of them. */
const { checklist: _list, answers: ANSWERS, ...BARE } = DEMO.job;
const TICKED = { ...BARE, checks: ANSWERS.map((a) => a.item) };
const NAMELESS = { ...DEMO.job, answers: ANSWERS.map((a) => ({ ...a, atUtcMs: null, by: '' })) };

/** A deep copy with one member replaced, by dotted path. */
function changed(kind: JobDocumentKind, path: string, value: unknown): unknown {
  const copy = structuredClone(good[kind]) as unknown as Record<string, unknown>;
  const keys = path.split('.');
  let at = copy;
  for (const k of keys.slice(0, -1)) at = at[k] as Record<string, unknown>;
  const last = keys.at(-1)!;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}

const issuesOf = (kind: JobDocumentKind, input: unknown): readonly DocumentIssue[] => {
  const r = parseDocument(kind, input);
  return r.ok ? [] : r.issues;
};

describe('settings of an earlier version', () => {
  it('keep what was chosen; orders are not spoken, a tablet that can shake does', () => {
    const { sound, ...rest } = defaultSettings();
    const old = { ...rest, version: 1, sound: { volume: 0.5, cue: false } };
    const parsed = parseDocument('settings', old);
    expect(parsed).toMatchObject({
      ok: true,
      value: { version: 2, sound: { volume: 0.5, cue: false, speech: false, vibration: true } },
    });
    expect(sound.speech).toBe(false);
    expect(parseDocument('settings', { ...old, sound: 3 }).ok).toBe(false);
  });
});

describe('documents', () => {
  it('reads what it writes, as a fresh copy', () => {
    for (const kind of KINDS) {
      const stored: unknown = JSON.parse(JSON.stringify(good[kind]));
      const r = parseDocument(kind, stored);
      expect(r).toEqual({ ok: true, value: good[kind] });
      if (r.ok) expect(r.value).not.toBe(stored);
    }
  });

  it('blank sheets are valid: a crew starts first and fills in later', () => {
    expect(issuesOf('job', blankJob('x'))).toEqual([]);
    expect(issuesOf('packer', blankPacker('x'))).toEqual([]);
    expect(issuesOf('resin', blankResin('x'))).toEqual([]);
    expect(issuesOf('sensor', blankSensor('x', '1'))).toEqual([]);
    expect(issuesOf('settings', defaultSettings())).toEqual([]);
  });

  it.each<[JobDocumentKind, string, unknown, Partial<DocumentIssue>]>([
    ['job', 'title', '   ', { path: 'title', code: 'blank' }],
    ['job', 'title', 'x'.repeat(121), { path: 'title', code: 'too-long', limit: 120 }],
    ['job', 'title', undefined, { path: 'title', code: 'missing' }],
    ['job', 'site', 'a\u202eb', { path: 'site', code: 'characters' }],
    ['job', 'site', 'a\nb', { path: 'site', code: 'characters' }],
    ['job', 'pipe.innerMm', '150', { path: 'pipe.innerMm', code: 'type' }],
    ['job', 'pipe.innerMm', 29, { path: 'pipe.innerMm', code: 'too-low', limit: 30 }],
    ['job', 'pipe.innerMm', Number.NaN, { path: 'pipe.innerMm', code: 'type' }],
    ['job', 'pipe.innerMm', Number.POSITIVE_INFINITY, { path: 'pipe.innerMm', code: 'type' }],
    ['job', 'pipe.dn', 150.5, { path: 'pipe.dn', code: 'not-whole' }],
    ['job', 'pipe.material', 'straw', { path: 'pipe.material', code: 'not-one-of' }],
    ['job', 'date', '2026-02-29', { path: 'date', code: 'date' }],
    ['job', 'packerId', '../x', { path: 'packerId', code: 'form' }],
    ['job', 'pressures.workingBar', 25, { path: 'pressures.workingBar', code: 'too-high', limit: 20 }],
    ['job', 'answers.0.how', 'dance', { path: 'answers.0.how', code: 'not-one-of' }],
    ['job', 'answers.1.item', 'permit', { path: 'answers', code: 'duplicate' }],
    ['job', 'checklist.items.0.id', 'ours', { path: 'checklist.items.0.text', code: 'blank' }],
    ['checklist', 'items', [], { path: 'items', code: 'too-few', limit: 1 }],
    ['checklist', 'items', Array(61).fill({}), { code: 'too-many', limit: 60 }],
    ['checklist', 'items.0.text', null, { path: 'items.0.text', code: 'type' }],
    ['checklist', 'items.1.id', 'permit', { path: 'items', code: 'duplicate' }],
    ['checklist', 'items.0.text', 'x'.repeat(161), { path: 'items.0.text', code: 'too-long', limit: 160 }],
    ['checklist', 'is', undefined, { path: 'is' }],
    ['job', 'device.channels.1.channel', 0, { path: 'device.channels', code: 'duplicate' }],
    ['job', 'extra', 1, { path: '', code: 'unknown-key', choices: ['extra'] }],
    ['packer', 'ratings.1.diameterMm', 100, { path: 'ratings', code: 'order' }],
    ['packer', 'sizes.maxMm', 50, { path: 'sizes.maxMm', code: 'pair' }],
    ['packer', 'ratings', Array(17).fill({}), { code: 'too-many', limit: 16 }],
    ['resin', 'curePoints.0.minutes', 0, { path: 'curePoints.0.minutes', code: 'too-low' }],
    ['sensor', 'calibration.asFound', [{ indicated: 0, reference: 0 }], { code: 'pair' }],
    [
      'sensor',
      'calibration.asLeft',
      Array(12).fill({ indicated: 0, reference: 0 }),
      { code: 'too-many', limit: 11 },
    ],
    ['sensor', 'range.hi', 0, { path: 'range.hi', code: 'pair' }],
    ['settings', 'reaction.handS', 1, { path: 'reaction.handS', code: 'too-low', limit: 2 }],
    ['settings', 'language', 'C', { path: 'language', code: 'form' }],
    ['settings', 'language', '../en', { path: 'language', code: 'form' }],
    ['settings', 'decimal', '.', { path: 'decimal', code: 'not-one-of' }],
    ['settings', 'sound.volume', 0, { path: 'sound.volume', code: 'too-low' }],
  ])('%s.%s refused', (kind, path, value, expected) => {
    const issues = issuesOf(kind, changed(kind, path, value));
    expect(issues).toContainEqual(expect.objectContaining(expected));
  });

  it('refuses later and strange versions by name', () => {
    expect(issuesOf('job', changed('job', 'version', 9))).toEqual([
      { path: 'version', code: 'version-future', limit: 8, found: 9 },
    ]);
    expect(issuesOf('job', changed('job', 'version', '1'))[0]?.code).toBe('version-unknown');
    expect(issuesOf('job', changed('job', 'version', undefined))[0]).toEqual({
      path: 'version',
      code: 'missing',
    });
  });

  it('a job sheet of before infiltration was asked reads as not looked', () => {
    const { infiltration, ...defect } = DEMO.job.defect;
    const old = { ...TICKED, version: 1, defect };
    expect(infiltration).toBe('not-looked');
    expect(parseDocument('job', old)).toMatchObject({ ok: true, value: { defect: DEMO.job.defect } });
    expect(issuesOf('job', { ...old, defect: 'crack' })[0]?.path).toBe('defect');
    expect(issuesOf('job', changed('job', 'defect.infiltration', 'wet'))[0]?.path).toBe(
      'defect.infiltration',
    );
  });

  it('a job sheet of before it was asked does not say whether the packer is warmed', () => {
    const { heating, ...old } = TICKED;
    expect(heating).toEqual({ by: 'none', toC: null });
    const value = { ...NAMELESS, heating: { by: 'unknown', toC: null }, wetness: 'unknown' };
    expect(parseDocument('job', { ...old, version: 2 })).toEqual({ ok: true, value });
    expect(blankJob('x').heating.by).toBe('unknown');
    expect(issuesOf('job', changed('job', 'heating.by', 'sun'))[0]?.path).toBe('heating.by');
    expect(issuesOf('job', changed('job', 'heating.toC', 151))[0]).toMatchObject({ code: 'too-high' });
  });

  it('a job sheet of before they were asked says nothing of water in the line, and of one packer on it', () => {
    const { wetness, packersOnLine, otherRatedBar, ...old } = TICKED;
    expect([wetness, packersOnLine, otherRatedBar]).toEqual(['dry', 'one', null]);
    const value = { ...NAMELESS, wetness: 'unknown' };
    expect(parseDocument('job', { ...old, version: 3 })).toEqual({ ok: true, value });
    expect(issuesOf('job', changed('job', 'packersOnLine', 'three'))[0]?.path).toBe('packersOnLine');
    expect(issuesOf('job', changed('job', 'otherRatedBar', 26))[0]).toMatchObject({ code: 'too-high' });
  });

  it('a job sheet of before there could be a second pressure has the one it names', () => {
    expect(parseDocument('job', { ...TICKED, version: 4 })).toEqual({ ok: true, value: NAMELESS });
    expect(issuesOf('job', changed('job', 'device.channels.1.role', 'outlet-pressure'))).toEqual([]);
    expect(issuesOf('job', changed('job', 'device.channels.1.role', 'third'))[0]?.code).toBe('not-one-of');
  });

  it('a sensor of before it was asked does not state what its own warmth does to it', () => {
    const { perKelvin, ...old } = blankSensor('x', '1');
    expect(perKelvin).toBeNull();
    expect(parseDocument('sensor', { ...old, version: 1 })).toEqual({
      ok: true,
      value: blankSensor('x', '1'),
    });
    expect(issuesOf('sensor', changed('sensor', 'perKelvin', 1.1))[0]?.path).toBe('perKelvin');
  });

  it('a resin of before it was asked cures by time and temperature', () => {
    const { curedBy, cupMarks: _, ...old } = DEMO.resin!.document;
    expect(curedBy).toBe('time');
    const value = { ...DEMO.resin!.document, cupMarks: [] };
    expect(parseDocument('resin', { ...old, version: 1 })).toEqual({ ok: true, value });
    expect(issuesOf('resin', changed('resin', 'curedBy', 'hope'))[0]?.path).toBe('curedBy');
  });

  it('refuses what is no document at all', () => {
    for (const v of [null, undefined, 1, 'x', [], [good.job], () => 1])
      expect(issuesOf('job', v)).toEqual([{ path: '', code: 'type' }]);
    const polluted: unknown = JSON.parse(`{"__proto__":{"version":1},"title":"x"}`);
    expect(issuesOf('job', polluted)[0]?.code).toBe('missing');
    expect(isDocumentKind('toString')).toBe(false);
    expect(isDocumentKind('packer')).toBe(true);
  });

  it('refuses what is far too large, or turns in a circle, at once', () => {
    const huge = { ...good.job, answers: new Array<string>(1_000_000).fill('permit') };
    expect(issuesOf('job', huge)).toEqual([{ path: '', code: 'too-large', limit: 20_000 }]);
    const round: Record<string, unknown> = { version: 1 };
    round.self = [round];
    expect(issuesOf('job', round)).toEqual([{ path: '', code: 'too-large', limit: 20_000 }]);
  });

  it('never throws and never lets through what differs from its own re-reading', () => {
    fc.assert(
      fc.property(fc.constantFrom(...KINDS), fc.object({ maxDepth: 3 }), (kind, extra) => {
        const r = parseDocument(kind, { ...good[kind], ...extra });
        if (r.ok) expect(parseDocument(kind, JSON.parse(JSON.stringify(r.value)))).toEqual(r);
        else expect(r.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
