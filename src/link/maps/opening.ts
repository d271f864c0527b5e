/**
 * One opening of a port behind which no device of the protocol is, but a bus or a plain line: the same that opening.ts is for
 * a device. It greets by the reading map, and makes of each round or line one sample by the map and this computer's clock.
 */
import type { ReadingMap } from '../../job/reading-map.ts';
import { LinkFault } from '../fault.ts';
import type { Opening, OpeningSite } from '../opening.ts';
import { type OpenHow, PortError } from '../ports/port.ts';
import type { SourceOptions } from '../session.ts';
import type { LinkError } from '../status.ts';
import { createBusReading } from './bus-reading.ts';
import type { HostClock } from './host-clock.ts';
import { introduce, rateOf } from './introduce.ts';
import { createLineReading } from './line-reading.ts';
import type { SourceReading, SourceSink } from './source-reading.ts';
import { createTranslate, type MapDoubt } from './translate.ts';

/** So long the first answer, or the first line, is waited for, ms: past a unit that has just got its power. */
const FIRST_MS = 4000;
const LOOK_MS = 50;
/** A system that has not opened a port by then never does (common practice, no source). */
const OPEN_MS = 8000;
/** Nothing usable for so long: what is wrong is told, us. */
const QUIET_US = 1_000_000;

/** A bus has eleven bits a character, a plain line ten. */
export const framingOf = (map: ReadingMap): NonNullable<OpenHow['framing']> =>
  map.is === 'registers'
    ? { parity: map.parity, stopBits: map.parity === 'none' ? 2 : 1 }
    : { parity: 'none', stopBits: 1 };

/** What a session needs to read by a map. */
export const sourceOf = (map: ReadingMap, clock: HostClock): SourceOptions => ({
  open: (site) => createMapOpening(map, clock, site),
  framing: framingOf(map),
});

function createMapOpening(map: ReadingMap, clock: HostClock, site: OpeningSite): Opening {
  const { port, timers, sink } = site;
  const translate = createTranslate(map);
  let alive = true;
  let started = false;
  let greeted = false;
  let frames = 0;
  let strayBytes = 0;
  /** By channel, until it is read again: not every round has all of them. */
  let doubts: readonly MapDoubt[] = [];
  let lastUs = timers.nowUs();
  let told: LinkError | null = null;
  let cancelLook = (): void => {};
  let whenEnded = (): void => {};
  const ended = new Promise<void>((resolve) => {
    whenEnded = resolve;
  });
  const rateHz = (): number => Math.min(site.rateHz(), rateOf(map));

  const heard: SourceSink = {
    sample(raw, main) {
      const nowUs = timers.nowUs();
      // Also of a round without an answer: its number is missing, and that is seen.
      const seq = clock.number();
      if (!alive || raw.length === 0) return;
      const { counts, doubts: found } = translate(raw);
      const isRead = (n: number): boolean =>
        (counts[n] ?? null) !== null || found.some((d) => d.channel === n);
      const still = doubts.filter((d) => !isRead(d.channel));
      if (found.length > 0 || still.length !== doubts.length)
        doubts = [...still, ...found].sort((a, b) => a.channel - b.channel);
      if (main) good(nowUs);
      if (!started) return;
      frames++;
      sink.frame({ t: 'S', seq, tick: clock.tickAt(nowUs), counts, status: 0 }, nowUs, raw);
    },
    stray(reason, bytes) {
      strayBytes += bytes.length;
      if (alive) sink.stray(reason, bytes, timers.nowUs());
    },
  };
  const reading: SourceReading =
    map.is === 'registers' ? createBusReading(map, port, timers, heard) : createLineReading(map, heard);

  function good(nowUs: number): void {
    lastUs = nowUs;
    greeted = true;
    if (told === null || !started) return;
    told = null;
    sink.streaming(rateHz());
  }

  function look(): void {
    cancelLook = timers.after(LOOK_MS * 10, () => {
      if (!alive) return;
      look();
      if (timers.nowUs() - lastUs < QUIET_US) return;
      const { trouble, line } = reading;
      if (trouble === null || trouble === told) return;
      told = trouble;
      sink.fault(trouble, line ?? '');
    });
  }

  function end(): void {
    alive = false;
    started = false;
    cancelLook();
    reading.end();
    whenEnded();
  }

  async function openPort(): Promise<void> {
    let cancel = (): void => {};
    const late = new Promise<never>((_, reject) => {
      cancel = timers.after(OPEN_MS, () =>
        reject(new PortError('open-failed', 'the port did not open in time')),
      );
    });
    const events = {
      bytes(chunk: Uint8Array): void {
        if (alive) reading.take(chunk, timers.nowUs());
      },
      recovered(name: string): void {
        if (alive && greeted) sink.fault('read-recovered', name);
      },
      gone(name: string): void {
        if (!alive) return;
        end();
        sink.gone('port-gone', name);
      },
      arrived: () => sink.arrived(),
    };
    try {
      await Promise.race([port.open(events, site.how), late, ended]);
    } catch (cause) {
      throw new LinkFault(cause instanceof PortError ? cause.code : 'open-failed', String(cause));
    } finally {
      cancel();
    }
    if (!alive) throw new LinkFault('port-gone', 'closed while it was opened');
  }

  /** Waits until something that can be used has come. */
  async function greet(): Promise<void> {
    sink.opened();
    reading.pace(rateHz());
    reading.begin();
    for (let ms = 0; ms < FIRST_MS && !greeted && alive; ms += LOOK_MS)
      await Promise.race([new Promise<void>((resolve) => void timers.after(LOOK_MS, resolve)), ended]);
    if (!alive) throw new LinkFault('port-gone', 'gone while it was asked');
    if (!greeted) throw new LinkFault(reading.trouble ?? 'no-hello', reading.line ?? 'nothing came');
    const greeting = introduce(map, clock.bootId, clock.tickAt(timers.nowUs()));
    const nowUs = timers.nowUs();
    // As the lines of a device's hello come before anybody knows that it is whole.
    for (const frame of [greeting.hello, ...greeting.channels]) sink.frame(frame, nowUs);
    sink.greeted(greeting);
  }

  function begin(): void {
    started = true;
    lastUs = timers.nowUs();
    sink.streaming(rateHz());
    look();
  }

  return {
    get frames() {
      return frames;
    },
    get strayBytes() {
      return strayBytes;
    },
    get started() {
      return started;
    },
    get heard() {
      return { line: reading.line };
    },
    get doubts() {
      return doubts;
    },
    async open() {
      await openPort();
      await greet();
      begin();
    },
    async start() {
      reading.pace(rateHz());
      if (started) sink.streaming(rateHz());
    },
    async stop() {
      started = false;
      reading.end();
    },
    end,
  };
}
