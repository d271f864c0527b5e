import { describe, expect, it } from 'vitest';
import { DEMO } from '../words/testing/demo.ts';
import { BUNDLE_MOST, parseBundle, readBundle, toBundle } from './bundle.ts';

describe('job file', () => {
  it('reads what it writes', () => {
    expect(readBundle(JSON.stringify(toBundle(DEMO)))).toEqual({ ok: true, value: DEMO });
    expect(readBundle(`\ufeff${JSON.stringify(toBundle(DEMO))}`).ok).toBe(true);
  });

  it('says where a fault lies', () => {
    const bad = structuredClone(toBundle(DEMO)) as {
      packer: { document: { ratings: { ratedBar: number }[] } };
      sensors: { id: string }[];
    };
    bad.packer.document.ratings[1]!.ratedBar = -1;
    bad.sensors[0]!.id = '../etc';
    const r = parseBundle(bad);
    expect(r).toMatchObject({
      ok: false,
      issues: [
        { path: 'packer.document.ratings.1.ratedBar', code: 'too-low' },
        { path: 'sensors.0.id', code: 'form' },
      ],
    });
  });

  it('refuses other files, later versions, strange members, too much', () => {
    expect(readBundle('{')).toMatchObject({ ok: false, issues: [{ code: 'form' }] });
    expect(readBundle(' '.repeat(BUNDLE_MOST + 1))).toMatchObject({
      ok: false,
      issues: [{ code: 'too-large' }],
    });
    expect(parseBundle({ ...toBundle(DEMO), schema: 'steadybar-job/2' })).toMatchObject({
      ok: false,
      issues: [{ path: 'schema', code: 'version-unknown' }],
    });
    expect(parseBundle({ ...toBundle(DEMO), shell: 'x' })).toMatchObject({
      ok: false,
      issues: [{ code: 'unknown-key', choices: ['shell'] }],
    });
    expect(parseBundle([])).toMatchObject({ ok: false, issues: [{ code: 'type' }] });
    const many = { ...toBundle(DEMO), sensors: Array(17).fill(DEMO.sensors[0]) };
    expect(parseBundle(many)).toMatchObject({ ok: false, issues: [{ path: 'sensors', code: 'too-many' }] });
  });

  it('a job needs no packer, resin or sensors', () => {
    expect(parseBundle({ schema: 'steadybar-job/1', jobId: 'a', job: DEMO.job })).toMatchObject({
      ok: true,
      value: { packer: null, resin: null, sensors: [] },
    });
  });
});
