import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ownCopy } from '../job/checklist-document.ts';
import { type Documents, FIELDS, type JobDocumentKind, parseDocument } from '../job/documents.ts';
import { valueAt, withValueAt } from '../job/paths.ts';
import { defaultSettings } from '../job/settings-defaults.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { benchRecord } from '../job/testing/bench-record.ts';
import { busMap, lineMap } from '../job/testing/maps.ts';
import { CHECK } from '../words/en/checks.ts';
import { DEMO } from '../words/testing/demo.ts';
import { makeSetup } from './setup.ts';

describe('a Setup of documents whose numbers stand at the ends of what they may be', () => {
  const full: Documents = {
    job: { ...DEMO.job, hose: { lengthM: 20, innerMm: 8 } },
    packer: DEMO.packer!.document,
    resin: DEMO.resin!.document,
    sensor: DEMO.sensors[0]!.document,
    settings: defaultSettings(),
    registers: busMap(),
    columns: lineMap(),
    checklist: ownCopy('Our list', CHECK), // no part of a plan
    bench: benchRecord(), // no part of a plan
  };
  /** The document with its numbers at the ends that `end` says; where that contradicts itself it stays as it was. */
  function at<K extends JobDocumentKind>(kind: K, end: (path: string) => 'lo' | 'hi' | null): Documents[K] {
    let document = full[kind];
    for (const [path, field] of FIELDS[kind]) {
      const to = field.is === 'number' ? end(`${kind}.${path}`) : null;
      const here = path.replaceAll('*', '0');
      if (field.is !== 'number' || to === null || typeof valueAt(document, here) !== 'number') continue;
      const changed = withValueAt(document, here, field[to]);
      if (parseDocument(kind, changed).ok) document = changed;
    }
    return document;
  }
  const holds = (end: (path: string) => 'lo' | 'hi' | null) => {
    const { setup } = makeSetup({
      bundle: {
        jobId: DEMO.jobId,
        job: at('job', end),
        packer: { id: DEMO.packer!.id, document: at('packer', end) },
        resin: { id: DEMO.resin!.id, document: at('resin', end) },
        sensors: [{ id: DEMO.sensors[0]!.id, document: at('sensor', end) }, ...DEMO.sensors.slice(1)],
      },
      settings: null,
      device: null,
      number: 1,
      practice: false,
    });
    const parsed = parseSetup(JSON.parse(JSON.stringify(setup)));
    expect(parsed.ok ? [] : parsed.issues).toEqual([]);
  };
  const numbers = (['job', 'packer', 'resin', 'sensor'] as const).flatMap((kind) =>
    [...FIELDS[kind]].flatMap(([path, f]) => (f.is === 'number' ? [`${kind}.${path}`] : [])),
  );

  it.each(numbers)('%s', (one) => {
    for (const to of ['lo', 'hi'] as const) holds((path) => (path === one ? to : null));
  });

  it('all at one end, and at any ends', () => {
    for (const to of ['lo', 'hi'] as const) holds(() => to);
    const ends = fc.array(fc.constantFrom('lo', 'hi', null), {
      minLength: numbers.length,
      maxLength: numbers.length,
    });
    fc.assert(
      fc.property(ends, (chosen) => holds((path) => chosen[numbers.indexOf(path)] ?? null)),
      { numRuns: 300, seed: 6 },
    );
  });
});
