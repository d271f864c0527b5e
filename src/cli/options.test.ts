import { describe, expect, it } from 'vitest';
import { parseOptions } from './options.ts';
import { faultOf } from './testing/fault-of.ts';

describe('options', () => {
  it('takes values after a space or an equals sign', () => {
    expect(parseOptions(['--trace', 'a.csv', '--rated=1.5', '--line', 'closed', '--tap', 'packer'])).toEqual({
      trace: 'a.csv',
      job: null,
      ratedBar: 1.5,
      workingBar: null,
      uBar: null,
      line: 'closed',
      tap: 'packer',
      out: null,
    });
  });

  it.each([
    [['--trace', 'a', '--speed', '2'], /unknown option "--speed"; usage:/],
    [['a.csv'], /unknown option "a.csv"/],
    [['--trace'], /--trace needs a value; usage: replay/],
    [['--trace', 'a', '-t'], /unknown option "-t"/],
    [['--trace', 'a', '--', '--rated'], /unknown option "--rated"/],
    [['--trace='], /--trace needs a value/],
    [['--trace', 'a', '--trace', 'b'], /--trace is given twice/],
    [['--rated', '2'], /--trace is missing/],
    [['--trace', 'a', '--rated', '1,5'], /--rated "1,5" is not a pressure of 0.05 to 30 bar/],
    [['--trace', 'a', '--rated', '0'], /--rated "0" is not a pressure/],
    [['--trace', 'a', '--rated', '150'], /--rated "150" is not a pressure/],
    [['--trace', 'a', '--rated', 'NaN'], /--rated "NaN" is not a pressure/],
    [['--trace', 'a', '--rated', '1', '--u', '-0.1'], /--u "-0.1" is not a pressure of 0 to 30 bar/],
    [['--trace', 'a', '--rated', '1', '--u', '1'], /--u 1 is not below --rated 1/],
    [['--trace', 'a', '--rated', '1', '--working', '1.2'], /--working 1.2 lies over --rated 1/],
    [['--trace', 'a', '--working', '1.2'], /--working needs --rated or --job/],
    [['--trace', 'a', '--u', '0.1'], /--u needs --rated or --job/],
    [['--trace', 'a', '--line', 'open'], /--line "open" is not one of closed, supplied-relieving/],
    [['--trace', 'a', '--tap', 'middle'], /--tap "middle" is not one of packer, hose, supply, unknown/],
  ])('%j is refused', (args, message) => {
    expect(faultOf(() => parseOptions(args))).toMatch(message);
  });
});
