// Compiles the C parts. Objects are kept by a hash of their sources, so that tests build once.

import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs';
import path from 'node:path';

const here = import.meta.dirname;
export const FLAGS = ['-std=c99', '-Wall', '-Wextra', '-Werror', '-pedantic', '-O2'];
export const NO_COMPILER = 'no C compiler (install gcc or clang)';

/** The C compiler's command, or null. */
export function compiler() {
  return (
    ['cc', 'gcc', 'clang'].find((name) => spawnSync(name, ['--version'], { stdio: 'ignore' }).status === 0) ??
    null
  );
}

const inFolder = (folder) =>
  readdirSync(path.join(here, folder))
    .filter((f) => f.endsWith('.c') || f.endsWith('.h'))
    .map((f) => path.join(here, folder, f));

const library = () => inFolder('c').filter((f) => path.basename(f).startsWith('sb_'));

export const NO_SIMAVR =
  'no simavr to link (Debian: libsimavr-dev libelf-dev; npm test installs them as root)';
export const hasSimavr = () => existsSync('/usr/include/simavr/sim_avr.h');

/** Path of the program made of these sources; throws with the compiler's words. */
function build(name, sources, headers, libraries, flags, cc = compiler()) {
  if (cc === null) throw new Error(NO_COMPILER);
  const hash = createHash('sha256').update([cc, ...flags].join(' '));
  for (const file of [...sources, ...headers]) hash.update(readFileSync(file));
  const folder = path.join(here, '..', '.cache', 'c');
  mkdirSync(folder, { recursive: true });
  const target = path.join(folder, `${name}-${hash.digest('hex').slice(0, 16)}`);
  if (existsSync(target)) return target;
  const fresh = `${target}.${process.pid}`;
  const made = spawnSync(cc, [...flags, '-o', fresh, ...sources, ...libraries], { encoding: 'utf8' });
  if (made.status !== 0) throw new Error(`${name} does not compile:\n${made.stderr}`);
  renameSync(fresh, target);
  return target;
}

const headers = (...folders) => folders.flatMap(inFolder).filter((f) => f.endsWith('.h'));

/** A test program of c/test/. */
export function buildTest(name) {
  const source = path.join(here, 'c', 'test', `${name}.c`);
  return build(name, [source, ...library()], headers('c', 'c/test'), [], FLAGS);
}

/** What a stranger's compiler may be asked to warn of. */
const WARN = ['-Wconversion', '-Wshadow', '-Wstrict-prototypes'];

/** The least device of least/ on stdin and stdout. */
export function buildLeast() {
  const sources = inFolder('least').filter((f) => f.endsWith('.c'));
  return build('least', sources, headers('least'), [], [...FLAGS, ...WARN]);
}

/** boards/sim/simavr.c: the AVR of boards/ on simavr. Linux only. */
export function buildSimavr() {
  const sources = [path.join(here, 'boards', 'sim', 'simavr.c'), path.join(here, 'host', 'port.c')];
  return build('simavr', sources, headers('host'), ['-lsimavr', '-lelf', '-lm'], FLAGS);
}

/** The device on a pty (host/). Linux only. */
export function buildDevice() {
  const sources = inFolder('host').filter((f) => f.endsWith('.c'));
  return build('device', [...sources, ...library()], headers('c', 'host'), ['-lm'], FLAGS);
}

/** Any undefined behaviour and any step over an edge ends the program. */
function fuzz(target, last, flags, cc) {
  const file = (name) => path.join(here, 'fuzz', `${name}.c`);
  const sources = [...[target, 'line', ...last].map(file), ...library()];
  return build(
    `fuzz-${target}`,
    sources,
    headers('c', 'fuzz'),
    [],
    [...FLAGS, '-fno-sanitize-recover=all', ...flags],
    cc,
  );
}

/** A target of fuzz/ with clang's own fuzzer, for the campaign. */
export const buildFuzzer = (target) => fuzz(target, [], ['-fsanitize=fuzzer,address,undefined'], 'clang');

/** The same with a driver of its own, for any compiler. */
export const buildFuzzSlice = (target) =>
  fuzz(target, ['slice'], ['-fsanitize=address,undefined'], compiler());
