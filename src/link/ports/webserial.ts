import { pause, type Timers } from '../timers.ts';
import { type Claim, createPortClaims, type PortClaims } from './claims.ts';
import { type OpenHow, type Port, PortError, type PortEvents } from './port.ts';

/** The part of navigator.serial that is used; it exists in dedicated workers too. */
export type SerialHost = Pick<Serial, 'getPorts' | 'addEventListener' | 'removeEventListener'>;

export interface SerialChoice {
  /** Place in getPorts() of the port that the user granted. */
  readonly index: number;
  readonly usbVendorId: number | null;
  readonly usbProductId: number | null;
  /** By which what is behind it is read: a bus or a plain line has no name of its own. */
  readonly map?: object;
}

/** After these the stream errs and port.readable becomes a new one; anything else is the end of the port. */
const RECOVERABLE = new Set([
  'BufferOverrunError',
  'BreakError',
  'FramingError',
  'ParityError',
  'UnknownError',
]);
/** The default of 255 bytes is 22 ms at 115200 baud: one late task and bytes are gone. */
const BUFFER_BYTES = 65_536;
/** The system needs a moment to give a port back: opening too soon fails though nothing is wrong. */
const OPEN_AGAIN_MS = [150, 400];
const CLOSE_MS = 1500;

// A DOMException is not an instance of Error everywhere, so only the name counts.
function nameOf(cause: unknown): string {
  const name = (cause as { name?: unknown } | null)?.name;
  return typeof name === 'string' ? name : 'UnknownCause';
}

/**
 * Web Serial behind the one port interface. A replugged device is a new SerialPort object, so each opening looks
 * the port up again; where several fit, the handshake tells which is ours.
 */
export function createWebSerialPort(
  serial: SerialHost,
  choice: SerialChoice,
  timers: Timers,
  claims: PortClaims<SerialPort> = createPortClaims(),
  claim: Claim<SerialPort> = claims.claim(choice, choice.map === undefined),
): Port {
  let events: PortEvents | null = null;
  let port: SerialPort | null = null;
  let reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  let writer: WritableStreamDefaultWriter<Uint8Array> | null = null;
  let loop: Promise<void> = Promise.resolve();
  let keep = false;
  let newest: SerialPort | null = null;
  let listening = false;
  let releasing: Promise<void> = Promise.resolve();

  function fits(candidate: SerialPort): boolean {
    const info = candidate.getInfo();
    return (
      (info.usbVendorId ?? null) === choice.usbVendorId && (info.usbProductId ?? null) === choice.usbProductId
    );
  }

  /** A device that has just come, else the one that the user chose, else those that fit in turn. */
  async function find(turn: number): Promise<SerialPort | null> {
    const all = await serial.getPorts();
    const candidates = all.filter((p) => fits(p) && !claims.isOthers(p, claim));
    const came = newest;
    const chosen = turn === 0 ? all[choice.index] : undefined;
    const inTurn = candidates[turn % Math.max(1, candidates.length)] ?? null;
    newest = null;
    if (chosen !== undefined && claims.isOthers(chosen, claim))
      throw new PortError('same-port', 'the other adapter is read from it');
    if (turn > 0 && claims.isAlike(claim)) {
      if (claim.last !== null && candidates.includes(claim.last)) return claim.last;
      throw new PortError('alike-ports', 'two adapters that went away look alike');
    }
    if (came !== null && candidates.includes(came)) return came;
    return chosen !== undefined && fits(chosen) ? chosen : inTurn;
  }

  function onConnect(event: Event): void {
    const arrived = event.target as SerialPort | null;
    if (port !== null || arrived === null) return;
    newest = arrived;
    events?.arrived?.();
  }

  function onDisconnect(event: Event): void {
    if (event.target === port) lost('NetworkError');
  }

  function listen(on: boolean): void {
    if (on === listening) return;
    listening = on;
    if (on) {
      serial.addEventListener('connect', onConnect);
      serial.addEventListener('disconnect', onDisconnect);
    } else {
      serial.removeEventListener('connect', onConnect);
      serial.removeEventListener('disconnect', onDisconnect);
    }
  }

  /** The port is gone: say so once, then give everything back. */
  function lost(name: string): void {
    if (!keep) return;
    keep = false;
    const was = port;
    port = null;
    claim.held = null;
    release(was);
    events?.gone(name);
  }

  async function read(mine: SerialPort): Promise<void> {
    let name = 'NetworkError';
    while (keep && mine.readable !== null) {
      const stream = mine.readable;
      const current = stream.getReader();
      reader = current;
      try {
        for (;;) {
          const { value, done } = await current.read();
          if (done) break;
          if (keep && value.length > 0) events?.bytes(value);
        }
      } catch (cause) {
        name = nameOf(cause);
        if (!RECOVERABLE.has(name)) break;
      } finally {
        current.releaseLock();
        reader = null;
      }
      // The same stream again would end at once, for ever.
      if (mine.readable === stream) break;
      if (keep && mine.readable !== null) events?.recovered(name);
    }
    lost(name);
  }

  /** Gives back locks in the order that close() needs, one port after the other. Never rejects, never hangs. */
  function release(was: SerialPort | null): Promise<void> {
    const before = releasing;
    const done = (async () => {
      await before;
      await reader?.cancel().catch(() => undefined);
      await loop.catch(() => undefined);
      const held = writer;
      writer = null;
      if (held !== null) {
        await held.abort().catch(() => undefined);
        held.releaseLock();
      }
      await was?.close().catch(() => undefined);
    })();
    releasing = Promise.race([done, pause(timers, CLOSE_MS)]);
    return releasing;
  }

  async function openOnce(found: SerialPort, { baudRate, framing }: OpenHow): Promise<void> {
    for (let n = 0; ; n++) {
      try {
        await found.open({ baudRate, ...framing, bufferSize: BUFFER_BYTES });
        return;
      } catch (cause) {
        const name = nameOf(cause);
        if (name === 'InvalidStateError')
          throw new PortError('port-busy', 'the port is open in another place');
        const wait = OPEN_AGAIN_MS[n];
        if (wait === undefined) throw new PortError('open-failed', `${name}: the port did not open`);
        await pause(timers, wait);
      }
    }
  }

  return {
    identity: {
      kind: 'serial',
      ...(choice.usbVendorId === null ? {} : { usbVendorId: choice.usbVendorId }),
      ...(choice.usbProductId === null ? {} : { usbProductId: choice.usbProductId }),
    },
    async open(to, how) {
      if (port !== null) throw new PortError('port-busy', 'already open');
      events = to;
      listen(true);
      await releasing;
      const found = await find(how.turn);
      if (found === null) throw new PortError('port-gone', 'no granted port fits');
      claim.held = found;
      try {
        await openOnce(found, how);
      } catch (cause) {
        claim.held = null;
        throw cause;
      }
      claim.last = found;
      if (events !== to) {
        claim.held = null;
        await found.close().catch(() => undefined);
        throw new PortError('port-gone', 'closed while it was opened');
      }
      port = found;
      keep = true;
      writer = found.writable?.getWriter() ?? null;
      loop = read(found);
    },
    async write(bytes) {
      if (port === null || writer === null) throw new PortError('write-failed', 'closed');
      const mine = writer;
      try {
        await mine.write(bytes);
      } catch (cause) {
        // Like readable, writable is a new stream after an error that the port survives.
        if (writer === mine && port?.writable) {
          mine.releaseLock();
          writer = port.writable.locked ? null : port.writable.getWriter();
        }
        throw new PortError('write-failed', nameOf(cause));
      }
    },
    async close() {
      listen(false);
      keep = false;
      events = null;
      const was = port;
      port = null;
      claim.held = null;
      await release(was);
    },
  };
}
