import { parseArgs } from 'node:util';
import type { Catalogue } from '../words/catalogue.ts';
import { fault, shown } from './fault.ts';

/** value: once, with a value · values: as often as wanted, each with one · flag: stands alone. */
export type OptionKind = 'value' | 'values' | 'flag';
type Usage = keyof Catalogue['commands']['USAGE'];

export interface Arguments<N extends string> {
  /** null: not given. */
  value(name: N): string | null;
  values(name: N): readonly string[];
  flag(name: N): boolean;
  /** What stands alone: names of files. */
  readonly rest: readonly string[];
}

/**
 * A command's line, after the conventions of POSIX and GNU as node:util reads them: `--name value`, `--name=value`, and
 * `--` before names that begin with a dash.
 * @throws InputFault naming the option
 */
export function readArguments<N extends string>(
  args: readonly string[],
  options: Readonly<Record<N, OptionKind>>,
  usage: Usage,
): Arguments<N> {
  const kinds: Readonly<Record<string, OptionKind>> = options;
  // Not strict: what is wrong is said here, in words of the catalogue.
  const { tokens } = parseArgs({
    args: [...args],
    options: Object.fromEntries(
      Object.entries(kinds).map(([name, kind]) => [
        name,
        { type: kind === 'flag' ? ('boolean' as const) : ('string' as const), multiple: true },
      ]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const given = new Map<string, string[]>();
  const rest: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') rest.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName: raw, value } = token;
    const kind = Object.hasOwn(kinds, name) && raw.startsWith('--') ? kinds[name] : undefined;
    if (kind === undefined)
      throw fault((f, w) => f.unknownOption(shown(args[token.index]!), w.commands.USAGE[usage]));
    if (kind === 'flag' && value !== undefined)
      throw fault((f, w) => f.takesNoValue(raw, w.commands.USAGE[usage]));
    if (kind !== 'flag' && (value === undefined || value === ''))
      throw fault((f, w) => f.needsValue(raw, w.commands.USAGE[usage]));
    const before = given.get(name) ?? [];
    if (kind === 'value' && before.length > 0) throw fault((f) => f.twice(raw));
    given.set(name, [...before, value ?? '']);
  }
  return {
    value: (name) => given.get(name)?.[0] ?? null,
    values: (name) => given.get(name) ?? [],
    flag: (name) => given.has(name),
    rest,
  };
}
