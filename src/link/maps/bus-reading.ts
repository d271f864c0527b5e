/** The bus behind an opening: runs the master by the timers and the port, and says what is wrong with the bus. */
import { mainQuantity } from '../../job/codes.ts';
import type { RegisterMap } from '../../job/reading-map.ts';
import type { StrayReason } from '../frames.ts';
import type { Misfit } from '../modbus/frames.ts';
import { createMaster } from '../modbus/master.ts';
import type { Port } from '../ports/port.ts';
import type { LinkError } from '../status.ts';
import type { Timers } from '../timers.ts';
import type { SourceReading, SourceSink } from './source-reading.ts';

const STRAY: { readonly [M in Misfit]: StrayReason } = {
  crc: 'crc',
  noise: 'garbage',
  partial: 'garbage',
  'other-unit': 'garbage',
  'not-asked': 'garbage',
  'other-master': 'garbage',
};

/** Bytes as a data sheet writes them. */
const HEX_SHOWN = 32;
const shown = (bytes: Uint8Array): string =>
  [...bytes.subarray(0, HEX_SHOWN)].map((b) => b.toString(16).padStart(2, '0')).join(' ');

export function createBusReading(
  map: RegisterMap,
  port: Pick<Port, 'write'>,
  timers: Timers,
  sink: SourceSink,
): SourceReading {
  let alive = false;
  let trouble: LinkError | null = null;
  let line: string | null = null;
  let cancel = (): void => {};
  const quantity = mainQuantity(map);
  const master = createMaster(map, {
    round: (parts, main) => sink.sample(parts, main),
    stray(why, bytes) {
      line = shown(bytes);
      if (why === 'other-master') trouble = 'other-master';
      else if (why !== 'not-asked' && why !== 'noise' && trouble !== 'other-master') trouble = 'bus-garbled';
      sink.stray(STRAY[why], bytes);
    },
    unit({ channels }, told) {
      const isMain = channels.some((c) => map.channels[c]?.quantity === quantity);
      if (!isMain) return;
      if (told === 'silent') trouble = trouble === 'other-master' ? trouble : 'no-unit';
      else if (told === 'garbled') trouble = trouble === 'other-master' ? trouble : 'bus-garbled';
      // What it refuses is said at the value.
      else trouble = null;
    },
  });

  function run(): void {
    cancel();
    if (!alive) return;
    const nowUs = timers.nowUs();
    const step = master.next(nowUs);
    if ('send' in step) {
      // A port that refuses is gone, and says so itself; else the answer stays away.
      port.write(step.send).catch(() => undefined);
      run();
      return;
    }
    cancel = timers.after(Math.max(0, Math.ceil((step.untilUs - nowUs) / 1000)), run);
  }

  return {
    get trouble() {
      return trouble;
    },
    get line() {
      return line;
    },
    take(chunk, nowUs) {
      master.take(chunk, nowUs);
      run();
    },
    begin() {
      alive = true;
      run();
    },
    end() {
      alive = false;
      cancel();
    },
    pace: (hz) => master.pace(hz),
  };
}
