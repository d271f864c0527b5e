import { expect, it } from 'vitest';
import { english } from '../testing/english.ts';

const { ARCHIVE } = english.archive;
const { EVIDENCE, findingText, remarkText, VERDICT } = english.evidence;

it('a changed page is told with the time of the trace', () => {
  const f = {
    f: 'pages',
    why: 'crc',
    page: 61,
    pages: 1,
    offset: 40_000,
    fromUs: 31.2e6,
    toUs: 32.1e6,
  } as const;
  expect(findingText(f, 1e6)).toBe('Trace: block 61 changed, from run time 0:30 to 0:31.');
  expect(findingText({ ...f, why: 'rewritten', pages: 600, toUs: null }, 1e6)).toBe(
    'Trace: blocks 61 to 660 made anew somewhere in this span, from run time 0:30 on.',
  );
  // The first block begins before the first reading.
  const first = { ...f, page: 0, fromUs: null, toUs: 1e6 } as const;
  expect(findingText(first, 1e6)).toBe('Trace: the first block (block 0) changed, at the start of the run.');
  expect(findingText({ ...first, toUs: 5e6 }, 1e6)).toBe(
    'Trace: the first block (block 0) changed, up to run time 0:04.',
  );
});

it('a refusal that is new to this page still has words', () => {
  expect(findingText({ f: 'refused', why: 'version', offset: 12 }, 0)).toContain('use a newer one');
  expect(findingText({ f: 'container', why: 'truncated', offset: 9, file: 'trace.csv' }, 0)).toContain(
    'trace.csv',
  );
});

it('a key that followed another is told with whether that one vouches', () => {
  const r = { r: 'key-followed', fingerprint: 'ab', reason: 'lost', endorsed: false } as const;
  expect(remarkText(r)).toContain('does not vouch');
});

it('no word promises what nobody can stand by', () => {
  const texts = JSON.stringify([EVIDENCE, VERDICT, ARCHIVE]);
  expect(texts).not.toMatch(/\b(cured|safe|guarantee\w*)\b/i);
});
