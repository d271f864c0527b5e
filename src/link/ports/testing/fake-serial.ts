import { createScriptedDevice, type ScriptedDevice } from '../../testing/device.ts';

// A stand-in for navigator.serial that is no kinder than a browser: streams are null while a port is closed, a
// recoverable error gives a NEW readable, an unplug makes both null and rejects the pending read, close() rejects
// on a locked stream, a port that was just closed does not open at once, a replug makes a NEW object and only
// this new one is listed, and the first write after an unplug still resolves.

const fault = (name: string, message: string): DOMException => new DOMException(message, name);

export class FakeSerialPort extends EventTarget {
  readable: ReadableStream<Uint8Array> | null = null;
  writable: WritableStream<Uint8Array> | null = null;
  readonly connected = true;
  onconnect = null;
  ondisconnect = null;
  bufferSize = 0;
  private source: ReadableStreamDefaultController<Uint8Array> | null = null;
  private opened = false;
  private baudRate = 0;
  private present = true;
  /** How many more times open() fails as it does when the system has not yet given the port back. */
  refusals = 0;
  /** Speeds that this converter does not know: it refuses to open at them. */
  unknown: readonly number[] = [];

  constructor(
    private readonly ids: SerialPortInfo,
    private readonly written: (bytes: Uint8Array) => void,
    /** The speed of what is at the other end; null: every speed reads it. */
    private readonly speed: () => number | null = () => null,
  ) {
    super();
  }

  getInfo(): SerialPortInfo {
    return this.ids;
  }

  async open(options: SerialOptions): Promise<void> {
    if (this.opened) throw fault('InvalidStateError', 'The port is already open.');
    await Promise.resolve();
    if (!this.present || this.refusals > 0 || this.unknown.includes(options.baudRate)) {
      this.refusals--;
      throw fault('NetworkError', 'Failed to open serial port.');
    }
    this.opened = true;
    this.baudRate = options.baudRate;
    this.bufferSize = options.bufferSize ?? 255;
    this.renewReadable();
    this.renewWritable();
  }

  async close(): Promise<void> {
    if (!this.opened) throw fault('InvalidStateError', 'The port is already closed.');
    if (this.readable?.locked || this.writable?.locked) throw new TypeError('Cannot cancel a locked stream');
    this.opened = false;
    this.readable = null;
    this.writable = null;
    this.source = null;
    this.refusals = 1;
  }

  private renewReadable(): void {
    this.readable = new ReadableStream<Uint8Array>({
      start: (controller) => {
        this.source = controller;
      },
      cancel: () => {
        this.source = null;
      },
    });
  }

  private renewWritable(): void {
    let late = 1;
    this.writable = new WritableStream<Uint8Array>({
      write: (bytes) => {
        if (this.present) this.written(this.asRead(bytes));
        else if (late-- <= 0) throw fault('NetworkError', 'The device has been lost.');
      },
    });
  }

  /** At another speed than the sender's other bytes are read, most of them no text. */
  private asRead(bytes: Uint8Array): Uint8Array {
    const speed = this.speed();
    if (speed === null || speed === this.baudRate) return bytes.slice();
    return bytes.map((b, i) => (b * 37 + i * 101) | (i % 3 === 0 ? 0 : 0x80));
  }

  /** The device sends; bytes to a closed port are dropped. */
  deliver(bytes: Uint8Array): void {
    this.source?.enqueue(this.asRead(bytes));
  }

  glitch(name: string): void {
    const old = this.source;
    this.renewReadable();
    old?.error(fault(name, 'The line had an error.'));
  }

  pull(): void {
    this.present = false;
    const old = this.source;
    this.readable = null;
    this.writable = null;
    this.source = null;
    old?.error(fault('NetworkError', 'The device has been lost.'));
  }
}

export class FakeSerial extends EventTarget {
  onconnect = null;
  ondisconnect = null;
  private listed: FakeSerialPort[] = [];
  /** The speed of the device, bits a second; null: it has a USB of its own. */
  speed: number | null = null;
  /** Speeds at which the port was opened, in order. */
  readonly openedAt: number[] = [];
  readonly device: ScriptedDevice;

  constructor(private readonly ids: SerialPortInfo = {}) {
    super();
    this.device = createScriptedDevice((bytes) => this.current?.deliver(bytes));
    this.listed.push(this.make());
  }

  private make(): FakeSerialPort {
    const port = new FakeSerialPort(
      this.ids,
      (bytes) => this.device.receive(bytes),
      () => this.speed,
    );
    const { open } = port;
    port.open = (options) => {
      this.openedAt.push(options.baudRate);
      return open.call(port, options);
    };
    return port;
  }

  get current(): FakeSerialPort | undefined {
    return this.listed.at(-1);
  }

  async getPorts(): Promise<SerialPort[]> {
    return this.listed as unknown as SerialPort[];
  }

  /** Another granted port that no device of ours is on. */
  addStranger(): void {
    this.listed.unshift(new FakeSerialPort(this.ids, () => {}));
  }

  private say(type: 'connect' | 'disconnect', port: FakeSerialPort): void {
    const event = new Event(type);
    Object.defineProperty(event, 'target', { value: port });
    this.dispatchEvent(event);
  }

  pull(order: 'event-first' | 'read-first' = 'read-first'): void {
    const port = this.listed.pop();
    if (port === undefined) return;
    if (order === 'event-first') this.say('disconnect', port);
    port.pull();
    if (order === 'read-first') this.say('disconnect', port);
  }

  plug(): void {
    const port = this.make();
    this.listed.push(port);
    this.say('connect', port);
  }
}
