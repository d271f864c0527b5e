/** One trial reading by a map, on a port that nothing else uses: opened, read, closed. */
import type { ReadingMap } from '../../job/reading-map.ts';
import { LinkFault } from '../fault.ts';
import { cellsOf } from '../line/columns.ts';
import { asksOf } from '../modbus/asks.ts';
import { type Port, PortError } from '../ports/port.ts';
import { pause, type Timers } from '../timers.ts';
import { createBusReading } from './bus-reading.ts';
import { createLineReading } from './line-reading.ts';
import { lookAt, type TestRead } from './look.ts';
import { framingOf } from './opening.ts';
import type { RawPart } from './raw.ts';
import type { SourceSink } from './source-reading.ts';

/** Past the boot of a board that resets when its port opens, ms. */
const LINE_MS = 4000;
const BUS_MS = 2500;
const LOOK_MS = 50;
/** Lines until the newest is taken: the first may be what a sketch says when it starts. */
const LINES = 3;

/** @throws LinkFault where the port does not open */
export async function testRead(port: Port, timers: Timers, map: ReadingMap): Promise<TestRead> {
  const parts = new Map<number, RawPart>();
  let newest: Uint8Array | null = null;
  let lines = 0;
  const sink: SourceSink = {
    sample(raw) {
      for (const part of raw) parts.set(part.ask, part);
      lines++;
      newest = raw[0]?.bytes ?? newest;
    },
    stray(reason, bytes) {
      if (reason === 'form') newest = bytes;
    },
  };
  const reading =
    map.is === 'registers' ? createBusReading(map, port, timers, sink) : createLineReading(map, sink);
  const isDone = (): boolean => (map.is === 'registers' ? parts.size === asksOf(map).length : lines >= LINES);
  try {
    await port.open(
      { bytes: (chunk) => reading.take(chunk, timers.nowUs()), recovered() {}, gone() {} },
      { baudRate: map.baud, turn: 0, framing: framingOf(map) },
    );
    reading.begin();
    const most = map.is === 'registers' ? BUS_MS : LINE_MS;
    for (let ms = 0; ms < most && !isDone(); ms += LOOK_MS) await pause(timers, LOOK_MS);
  } catch (cause) {
    throw new LinkFault(cause instanceof PortError ? cause.code : 'open-failed', String(cause));
  } finally {
    reading.end();
    await port.close();
  }
  return {
    trouble: parts.size > 0 ? null : (reading.trouble ?? 'no-hello'),
    line: reading.line,
    channels: lookAt(map, [...parts.values()]),
    cells: map.is === 'columns' && newest !== null ? cellsOf(newest, map.decimal) : [],
  };
}
