// Measures the ports in the simulators and writes the figures into README.md:
//   npx tsx firmware-protocol/boards/report.ts

import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { type BoardName, buildBoard } from './build.mjs';
import { createAvr } from './sim/avr.ts';
import { createCm0 } from './sim/cm0.ts';
import { createHost } from './sim/host.ts';
import { pressureVolts } from './sim/machine.ts';

const CREATE = { avr: createAvr, cm0: createCm0 };
const HZ = { avr: 16e6, cm0: 12e6 };
const RATES = [100, 500] as const;

interface Figures {
  readonly compiler: string;
  readonly flashBytes: number;
  readonly ramBytes: number;
  readonly stackBytes: number;
  readonly maxRateHz: number;
  /** Share of the processor's time while nothing streams: three conversions a millisecond, guard, timers. */
  readonly idle: number;
  /** Cycles that one line of samples costs besides, from the interrupt to the last byte that leaves. */
  readonly cyclesPerSample: number;
  readonly busyAt500: number;
  readonly lostAt500: number;
  /** From the voltage over the limit to the pin, µs: least and most of the steps. */
  readonly tripUs: readonly [number, number];
}

function measure(name: BoardName): Figures {
  const board = buildBoard(name);
  const machine = CREATE[name](board);
  const host = createHost(machine);
  host.ask({ verb: 'hello' });
  host.run(10_000);
  const busy = (us: number): number => {
    const before = machine.busyCycles;
    host.run(us);
    return (machine.busyCycles - before) / (us / 1e6);
  };
  const maxRateHz = host.hello?.maxRateHz ?? NaN;
  const idle = busy(500_000);
  const atRate = RATES.map((rateHz) => {
    host.ask({ verb: 'start', rateHz });
    host.forget();
    return { cycles: busy(1_000_000), samples: host.samples };
  });
  host.ask({ verb: 'stop' });
  const [slow, fast] = atRate as [(typeof atRate)[0], (typeof atRate)[0]];
  const seqs = fast.samples.map((s) => s.seq);
  const trips: number[] = [];
  const limit = Math.floor((board.name === 'avr' ? 187.5 : 744.727) * pressureVolts(1.5));
  host.ask({ verb: 'limit', channel: 0, counts: limit, mbar: 1500 });
  for (let n = 0; n < 8; n++) {
    machine.volts(0, pressureVolts(0.5));
    host.run(1_100_000 + 37 * n);
    const from = machine.us;
    machine.volts(0, pressureVolts(1.7));
    host.run(3000);
    if (!machine.sounder) throw new Error('did not trip');
    trips.push(machine.sounderUs - from);
  }
  return {
    compiler: board.compiler,
    flashBytes: board.flashBytes,
    ramBytes: board.ramBytes,
    stackBytes: machine.stackBytes,
    maxRateHz,
    idle: idle / HZ[name],
    cyclesPerSample: (fast.cycles - slow.cycles) / (RATES[1] - RATES[0]),
    busyAt500: fast.cycles / HZ[name],
    lostAt500: seqs.at(-1)! - seqs[0]! + 1 - seqs.length,
    tripUs: [Math.min(...trips), Math.max(...trips)],
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const figures = { avr: measure('avr'), cm0: measure('cm0') };
const row = (label: string, say: (f: Figures) => string): string[] => [
  label,
  say(figures.avr),
  say(figures.cm0),
];
const rows = [
  ['', 'avr, 16 MHz', 'cm0, 12 MHz'],
  row('compiler, -Os', (f) => f.compiler.replace(/ \(.*\)/, '')),
  row('program in flash, bytes', (f) => String(f.flashBytes)),
  row('memory without stack, bytes', (f) => String(f.ramBytes)),
  row('deepest stack seen, bytes', (f) => String(f.stackBytes)),
  row('most lines a second at 500 000 baud, three counts', (f) => String(f.maxRateHz)),
  row('processor busy, nothing streams', (f) => percent(f.idle)),
  row('cycles a line of samples', (f) => f.cyclesPerSample.toFixed(0)),
  row('processor busy at 500 lines a second', (f) => percent(f.busyAt500)),
  row('lines lost in a second of that', (f) => String(f.lostAt500)),
  row('limit passed to sounder on, µs', (f) => `${f.tripUs[0].toFixed(0)}-${f.tripUs[1].toFixed(0)}`),
];
const widths = [0, 1, 2].map((c) => Math.max(...rows.map((r) => r[c]!.length)));
const line = (cells: readonly string[]): string =>
  `| ${cells.map((cell, c) => cell.padEnd(widths[c]!)).join(' | ')} |`;
const table = [
  line(rows[0]!),
  `| ${widths.map((w) => '-'.repeat(w)).join(' | ')} |`,
  ...rows.slice(1).map(line),
].join('\n');
const file = path.join(import.meta.dirname, 'README.md');
const before = readFileSync(file, 'utf8');
const after = before.replace(
  /(<!-- figures: report\.ts -->\n)[\s\S]*(\n<!-- end of figures -->)/,
  (_, head: string, tail: string) => `${head}\n${table}\n${tail}`,
);
if (after === before && !before.includes(table)) throw new Error('README.md has no place for the figures');
writeFileSync(file, after);
console.log(table);
