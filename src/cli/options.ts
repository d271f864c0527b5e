import type { Line, Tap } from '../job/setup.ts';
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

export const USAGE =
  'usage: replay --trace FILE [--job JOB.json] [--rated BAR] [--working BAR] [--u BAR] [--line LINE] [--tap TAP] [--out RESULT.json]';

const LINES: readonly Line[] = ['closed', 'supplied-relieving', 'supplied-nonrelieving', 'unknown'];
const TAPS: readonly Tap[] = ['packer', 'hose', 'supply', 'unknown'];
const NAMES = ['trace', 'job', 'rated', 'working', 'u', 'line', 'tap', 'out'] as const;
type Name = (typeof NAMES)[number];

/** Highest pressure that an option may name, bar: more is a mistake of units. */
const MOST_BAR = 30;

/** @throws InputFault naming the option */
export function parseOptions(args: readonly string[]): ReplayOptions {
  const given = new Map<Name, string>();
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    const [flag, ...rest] = arg.split('=');
    const name = NAMES.find((n) => flag === `--${n}`);
    if (name === undefined) throw fault(`unknown option ${shown(arg)}; ${USAGE}`);
    const value = rest.length > 0 ? rest.join('=') : args[++i];
    if (value === undefined || value === '') throw fault(`--${name} needs a value; ${USAGE}`);
    if (given.has(name)) throw fault(`--${name} is given twice`);
    given.set(name, value);
  }
  const bar = (name: Name, lowest: number): number | null => {
    const text = given.get(name);
    if (text === undefined) return null;
    const value = /^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
    if (!(value >= lowest && value <= MOST_BAR))
      throw fault(`--${name} ${shown(text)} is not a pressure of ${lowest} to ${MOST_BAR} bar`);
    return value;
  };
  const choice = <T extends string>(name: Name, all: readonly T[]): T | null => {
    const text = given.get(name);
    if (text === undefined) return null;
    const found = all.find((c) => c === text);
    if (found === undefined) throw fault(`--${name} ${shown(text)} is not one of ${all.join(', ')}`);
    return found;
  };
  const trace = given.get('trace');
  if (trace === undefined) throw fault(`--trace is missing; ${USAGE}`);
  const options: ReplayOptions = {
    trace,
    job: given.get('job') ?? null,
    ratedBar: bar('rated', 0.05),
    workingBar: bar('working', 0.05),
    uBar: bar('u', 0),
    line: choice('line', LINES),
    tap: choice('tap', TAPS),
    out: given.get('out') ?? null,
  };
  checkTogether(options);
  return options;
}

function checkTogether({ ratedBar, workingBar, uBar, job }: ReplayOptions): void {
  if (ratedBar === null && job === null) {
    if (workingBar !== null) throw fault('--working needs --rated or --job');
    if (uBar !== null) throw fault('--u needs --rated or --job');
    return;
  }
  if (ratedBar === null) return;
  if (uBar !== null && uBar >= ratedBar) throw fault(`--u ${uBar} is not below --rated ${ratedBar}`);
  if (workingBar !== null && workingBar > ratedBar)
    throw fault(`--working ${workingBar} lies over --rated ${ratedBar}`);
}
