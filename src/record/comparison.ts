/** A file that is made again piece by piece, held against the one that is there. */
import type { ByteSource } from './byte-source.ts';
import { firstDifference } from './difference.ts';

export class Comparison {
  private first: number | null = null;
  private room = new Uint8Array(0);

  /** @param at bytes that were made so far */
  constructor(
    protected readonly there: ByteSource,
    protected at = 0,
  ) {}

  async take(piece: Uint8Array): Promise<void> {
    if (this.first === null) {
      if (this.room.length < piece.length) this.room = new Uint8Array(piece.length);
      const here = firstDifference(await this.there.read(this.at, piece.length, this.room), piece);
      if (here !== null) this.first = this.at + here;
    }
    this.at += piece.length;
  }

  /** No byte has differed so far. */
  get isSame(): boolean {
    return this.first === null;
  }

  /** Where the next piece lies. */
  get place(): number {
    return this.at;
  }

  /** Where the two differ first; null when they don't. */
  difference(): number | null {
    return this.first ?? (this.at === this.there.size ? null : this.at);
  }
}

/** Another browser may round the last digits of a measured value otherwise: bar or °C of which nobody can tell. */
const ROUNDING = 1e-4;
const MEASURED = /^(pressure|temperature)_/;
const NUMBER = /^-?\d+(\.\d+)?$/;
const CHUNK = 1 << 16;
/** No line is longer: what has no end is no line. */
const MOST_LINE = 1 << 16;

/** trace.csv: its values follow from counts and Setups, and of one engine they are the same but for rounding. */
export class CsvComparison extends Comparison {
  private readonly decoder = new TextDecoder('latin1');
  private measured: readonly boolean[] = [];
  /** Of the file that is there, from the first piece on that differs: what was read, and up to where. */
  private text = '';
  private readTo = 0;
  private isApart = false;

  /** @param piece whole lines; the first one is the header */
  override async take(piece: Uint8Array): Promise<void> {
    const before = this.at;
    if (before === 0)
      this.measured = this.decoder
        .decode(piece)
        .trim()
        .split(',')
        .map((n) => MEASURED.test(n));
    if (this.isSame) this.readTo = before;
    await super.take(piece);
    if (this.isSame || this.isApart) return;
    for (const line of this.decoder.decode(piece).split('\n').slice(0, -1)) {
      if (this.isLike(line, await this.nextLine())) continue;
      this.isApart = true;
      return;
    }
  }

  /** It says something else than what is made again, beyond rounding. To be asked behind the last piece. */
  get apart(): boolean {
    if (this.isApart) return true;
    return this.isSame ? this.at < this.there.size : this.text !== '' || this.readTo < this.there.size;
  }

  /** The next line of the file that is there, without its end; null behind the last one. */
  private async nextLine(): Promise<string | null> {
    let end = this.text.indexOf('\n');
    while (end < 0 && this.readTo < this.there.size && this.text.length < MOST_LINE) {
      const chunk = await this.there.read(this.readTo, Math.min(CHUNK, this.there.size - this.readTo));
      this.readTo += chunk.length;
      this.text += this.decoder.decode(chunk);
      end = this.text.indexOf('\n');
    }
    if (end < 0) return null;
    const line = this.text.slice(0, end);
    this.text = this.text.slice(end + 1);
    return line;
  }

  private isLike(line: string, other: string | null): boolean {
    if (line === other) return true;
    const [mine, theirs] = [line.split(','), other?.split(',') ?? []];
    return (
      mine.length === theirs.length &&
      mine.every((field, i) => {
        const there = theirs[i]!;
        if (field === there) return true;
        const isNumber = this.measured[i] === true && NUMBER.test(field) && NUMBER.test(there);
        return isNumber && Math.abs(Number(field) - Number(there)) <= ROUNDING;
      })
    );
  }
}
