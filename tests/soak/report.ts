import type { NodeSoak, PageSoak } from './figures.ts';

const mb = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;

function nodePart(s: NodeSoak): string {
  return [
    `${s.hours} h of device time at ${s.rateHz} Hz through the whole engine in Node, on a clock that only the soak moves: ${s.readings} readings,`,
    `${mb(s.recordBytes)} of record, in ${(s.wallS / 60).toFixed(1)} min (load ${s.load.toFixed(1)}). Used heap after a collection:`,
    '',
    `| ${s.heap.map((h) => `${h.hour} h`).join(' | ')} |`,
    `| ${s.heap.map(() => '---').join(' | ')} |`,
    `| ${s.heap.map((h) => mb(h.bytes)).join(' | ')} |`,
  ].join('\n');
}

function pagePart(s: PageSoak): string {
  const row = (what: string, of: (x: PageSoak['samples'][number]) => number) =>
    `| ${what} | ${s.samples.map((x) => mb(of(x))).join(' | ')} |`;
  return [
    `${s.minutes} min in Chromium in real time, a hold read from the C device: ${s.readings} readings, ${s.lostBytes} bytes lost,`,
    `alarms: ${s.alarms.length === 0 ? 'none' : s.alarms.join(', ')} (load ${Math.min(...s.loads).toFixed(1)} to ${Math.max(...s.loads).toFixed(1)}). Heaps after a collection:`,
    '',
    `| minute | ${s.samples.map((x) => x.minute).join(' | ')} |`,
    `| --- | ${s.samples.map(() => '---').join(' | ')} |`,
    row('page', (x) => x.pageBytes),
    row('engine’s worker', (x) => x.workerBytes),
    row('resident, the page’s process', (x) => x.rendererBytes),
  ].join('\n');
}

/** The soak, as a section of docs/faults.md. */
export function soakReport({ node, page }: { node: NodeSoak | null; page: PageSoak | null }): string {
  return [
    '## Soak',
    ...(node === null ? [] : [nodePart(node)]),
    ...(page === null ? [] : [pagePart(page)]),
  ].join('\n\n');
}
