/** Bytes of a plain line to lines, whatever ends them. Never throws; loses no byte. */

/** Longest line that is read, bytes: twenty columns of ten digits. */
export const MOST_LINE = 240;

export interface LineSink {
  /** A line with its end. */
  line(bytes: Uint8Array): void;
  /** Bytes that are no line: too long, or what came before the first end ('partial'). */
  stray(reason: 'long' | 'partial', bytes: Uint8Array): void;
}

const CR = 0x0d;
const LF = 0x0a;

/** A line ends in LF, CR or both; empty ones are of no account. */
export class LineReader {
  private held: number[] = [];
  private opening = true;
  private discarding = false;
  private endedInCr = false;

  constructor(private readonly sink: LineSink) {}

  push(chunk: Uint8Array): void {
    for (const b of chunk) {
      const isEnd = b === CR || b === LF;
      // The LF of a CR LF whose line was given away already.
      const isSecond = b === LF && this.endedInCr && this.held.length === 0;
      this.endedInCr = b === CR;
      if (isSecond) continue;
      this.held.push(b);
      if (isEnd) this.end();
      else if (this.held.length === MOST_LINE) this.tooLong();
    }
  }

  private take(): Uint8Array {
    const bytes = Uint8Array.from(this.held);
    this.held = [];
    return bytes;
  }

  private tooLong(): void {
    this.discarding = true;
    this.sink.stray('long', this.take());
  }

  private end(): void {
    const bytes = this.take();
    const { opening, discarding } = this;
    this.opening = false;
    this.discarding = false;
    if (discarding) this.sink.stray('long', bytes);
    // What came before the first end may be half a line.
    else if (opening) this.sink.stray('partial', bytes);
    else if (bytes.length > 1) this.sink.line(bytes);
  }
}
