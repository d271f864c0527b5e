// Compiles the ports with Debian's cross compilers. Programs are kept by a hash of their sources.

import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs';
import path from 'node:path';

const here = import.meta.dirname;
const library = path.join(here, '..', 'c');

const WARN =
  '-Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wcast-qual -Wundef ' +
  '-Wswitch-enum -Wpointer-arith -Wwrite-strings -Wold-style-definition -Wredundant-decls -Werror';

const BOARDS = {
  avr: {
    tools: 'avr-',
    flags: '-mmcu=atmega328p -DF_CPU=16000000UL',
    libraries: [],
    // Constants lie in RAM, too, where they are not asked for otherwise.
    sections: { flash: ['.text', '.data'], ram: ['.data', '.bss', '.noinit'] },
  },
  cm0: {
    tools: 'arm-none-eabi-',
    flags: `-mcpu=cortex-m0plus -mthumb -ffreestanding -nostdlib -T ${path.join(here, 'cm0', 'memory.ld')}`,
    libraries: ['-lgcc'],
    sections: { flash: ['.text', '.data'], ram: ['.data', '.bss', '.noinit'] },
  },
};

export const NAMES = Object.keys(BOARDS);
export const NO_CROSS_COMPILER =
  'no cross compiler (Debian: gcc-avr avr-libc, gcc-arm-none-eabi; npm test installs them as root)';

/** Is the compiler of this board here? */
export const canBuild = (name) =>
  spawnSync(`${BOARDS[name].tools}gcc`, ['--version'], { stdio: 'ignore' }).status === 0;

function run(program, args) {
  const made = spawnSync(program, args, { encoding: 'utf8' });
  if (made.status !== 0) throw new Error(`${program} ${args.join(' ')}\n${made.stderr}`);
  return made.stdout;
}

const inFolder = (folder, ...ends) =>
  readdirSync(folder)
    .filter((f) => ends.some((end) => f.endsWith(end)))
    .map((f) => path.join(folder, f));

/** The program of boards/NAME: see build.d.mts; throws with the compiler's words. */
export function buildBoard(name) {
  const { tools, flags, libraries, sections } = BOARDS[name];
  const port = path.join(here, name);
  const sources = [...inFolder(port, '.c'), ...inFolder(here, '.c'), ...inFolder(library, '.c')];
  const others = [...inFolder(port, '.h', '.ld'), ...inFolder(here, '.h'), ...inFolder(library, '.h')];
  const args = [
    ...`${flags} -std=c99 -Os -g ${WARN}`.split(' '),
    '-include',
    path.join(port, 'lock.h'),
    ...sources,
    ...libraries,
  ];
  const version = run(`${tools}gcc`, ['--version']).split('\n')[0];
  const hash = createHash('sha256').update([version, ...args].join(' '));
  for (const file of [...sources, ...others]) hash.update(readFileSync(file));
  const folder = path.join(here, '..', '..', '.cache', 'boards');
  mkdirSync(folder, { recursive: true });
  const elf = path.join(folder, `${name}-${hash.digest('hex').slice(0, 16)}.elf`);
  if (!existsSync(elf)) {
    const fresh = `${elf}.${process.pid}`;
    run(`${tools}gcc`, [...args, '-o', fresh]);
    run(`${tools}objcopy`, ['-O', 'binary', fresh, elf.replace(/elf$/, 'bin')]);
    renameSync(fresh, elf);
  }
  const sizes = Object.fromEntries(
    [...run(`${tools}size`, ['-A', elf]).matchAll(/^(\.\w+)\s+(\d+)/gm)].map((m) => [m[1], Number(m[2])]),
  );
  const sum = (list) => list.reduce((bytes, section) => bytes + (sizes[section] ?? 0), 0);
  const symbols = new Map(
    [...run(`${tools}nm`, [elf]).matchAll(/^([0-9a-f]+) \w (\S+)$/gm)].map((m) => [
      m[2],
      Number.parseInt(m[1], 16),
    ]),
  );
  return {
    name,
    elf,
    compiler: version,
    image: new Uint8Array(readFileSync(elf.replace(/elf$/, 'bin'))),
    flashBytes: sum(sections.flash),
    ramBytes: sum(sections.ram),
    addressOf(symbol) {
      const at = symbols.get(symbol);
      if (at === undefined) throw new Error(`${name} has no symbol ${symbol}`);
      // What lies in data memory has an offset in an AVR's file.
      return name === 'avr' ? at & 0xffff : at;
    },
  };
}
