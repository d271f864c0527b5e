import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { METRIC } from '../create-format.ts';
import { english } from '../testing/english.ts';

const { doubtFigures, doubtText, reasonWith, STAGE_DOUBT } = english.doubts;
const plain = (text: string | null) => text?.replaceAll('\u00a0', ' ');
const at = { bar: 1.2, peakBar: 2.6, limits: { ...LIMITS, workingBar: 1.5, ratedBar: 2.5 } };

describe('a doubt', () => {
  it('says first what is read, and what it is held against', () => {
    expect(plain(doubtText('under-working', at, METRIC))).toBe(
      `1.20 bar, working 1.50. ${STAGE_DOUBT['under-working']}`,
    );
    expect(plain(doubtFigures('over-ceiling', at, METRIC))).toMatch(/^1\.20 bar, ceiling \d\.\d\d$/);
    expect(plain(doubtFigures('was-over-rated', at, METRIC))).toBe('2.60 bar, rated 2.50');
    expect(plain(doubtFigures('line-pressed', at, METRIC))).toBe('1.20 bar');
  });

  it('never has a figure that is not known', () => {
    const unknown = { bar: null, peakBar: null, limits: null };
    for (const code of Object.keys(STAGE_DOUBT) as (keyof typeof STAGE_DOUBT)[]) {
      expect(doubtText(code, unknown, METRIC)).toBe(STAGE_DOUBT[code]);
      expect(doubtText(code, { ...at, limits: { ...LIMITS, floorBar: null } }, METRIC)).not.toMatch(
        /null|undefined|NaN|–/,
      );
    }
  });

  it('is recorded with the reason', () => {
    expect(reasonWith('Agreed.', [])).toBe('Agreed.');
    expect(reasonWith('Agreed.', ['1.20 bar, working 1.50'])).toBe('Agreed. (1.20 bar, working 1.50)');
  });
});
