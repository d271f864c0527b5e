import { LINES, type Line, TAPS, type Tap } from '../job/codes.ts';
import { MOST_BAR } from '../job/entries.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';

export interface ReplayOptions {
  readonly trace: string;
  readonly job: string | null;
  readonly ratedBar: number | null;
  readonly workingBar: number | null;
  readonly uBar: number | null;
  readonly line: Line | null;
  readonly tap: Tap | null;
  readonly out: string | null;
}

const OPTIONS = {
  trace: 'value',
  job: 'value',
  rated: 'value',
  working: 'value',
  u: 'value',
  line: 'value',
  tap: 'value',
  out: 'value',
} as const;
type Name = keyof typeof OPTIONS;

/** @throws InputFault naming the option */
export function parseOptions(args: readonly string[]): ReplayOptions {
  const given = readArguments(args, OPTIONS, 'replay');
  const [stray] = given.rest;
  if (stray !== undefined) throw fault((f, w) => f.unknownOption(shown(stray), w.commands.USAGE.replay));
  const bar = (name: Name, lowest: number): number | null => {
    const text = given.value(name);
    if (text === null) return null;
    const value = /^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
    if (!(value >= lowest && value <= MOST_BAR))
      throw fault((f) => f.notAPressure(`--${name}`, shown(text), lowest, MOST_BAR));
    return value;
  };
  const choice = <T extends string>(name: Name, all: readonly T[]): T | null => {
    const text = given.value(name);
    if (text === null) return null;
    const found = all.find((c) => c === text);
    if (found === undefined) throw fault((f) => f.notOneOf(`--${name}`, shown(text), all.join(', ')));
    return found;
  };
  const trace = given.value('trace');
  if (trace === null) throw fault((f, w) => f.missing('--trace', w.commands.USAGE.replay));
  const options: ReplayOptions = {
    trace,
    job: given.value('job'),
    ratedBar: bar('rated', 0.05),
    workingBar: bar('working', 0.05),
    uBar: bar('u', 0),
    line: choice('line', LINES),
    tap: choice('tap', TAPS),
    out: given.value('out'),
  };
  checkTogether(options);
  return options;
}

function checkTogether({ ratedBar, workingBar, uBar, job }: ReplayOptions): void {
  if (ratedBar === null && job === null) {
    if (workingBar !== null) throw fault((f) => f.needsLimit('--working'));
    if (uBar !== null) throw fault((f) => f.needsLimit('--u'));
    return;
  }
  if (ratedBar === null) return;
  if (uBar !== null && uBar >= ratedBar) throw fault((f) => f.notBelow('--u', uBar, ratedBar));
  if (workingBar !== null && workingBar > ratedBar)
    throw fault((f) => f.over('--working', workingBar, ratedBar));
}
