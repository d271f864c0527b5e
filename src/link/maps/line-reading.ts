/** A plain line behind an opening: every line that has what the map asks for is a sample. */
import { mainQuantity } from '../../job/codes.ts';
import type { ColumnMap } from '../../job/reading-map.ts';
import { shownLine } from '../hearing.ts';
import { cellsOf, numbersOf } from '../line/columns.ts';
import { LineReader } from '../line/reader.ts';
import type { LinkError } from '../status.ts';
import type { SourceReading, SourceSink } from './source-reading.ts';

const CR = 0x0d;
const isText = (b: number): boolean => (b >= 0x20 && b <= 0x7e) || (b >= 0x09 && b <= CR) || b >= 0xa0;
/** Bytes read at a wrong speed spread over all values. */
const TEXT_SHARE = 0.75;

const isReadable = (bytes: Uint8Array): boolean =>
  bytes.filter((b) => isText(b)).length >= TEXT_SHARE * bytes.length;

export function createLineReading(map: ColumnMap, sink: SourceSink): SourceReading {
  let trouble: LinkError | null = 'no-hello';
  let line: string | null = null;
  const quantity = mainQuantity(map);

  const reader = new LineReader({
    line(bytes) {
      const numbers = numbersOf(map, cellsOf(bytes, map.decimal));
      if (numbers.every((n) => typeof n !== 'number')) {
        line = shownLine(bytes);
        trouble = isReadable(bytes) ? 'no-columns' : 'speed';
        sink.stray('form', bytes);
        return;
      }
      const hasMain = map.channels.some((c, i) => c.quantity === quantity && typeof numbers[i] === 'number');
      if (hasMain) trouble = null;
      else {
        line = shownLine(bytes);
        trouble = 'no-columns';
      }
      sink.sample([{ ask: 0, bytes }], hasMain);
    },
    stray(reason, bytes) {
      line = shownLine(bytes);
      if (reason === 'long') trouble = isReadable(bytes) ? 'no-columns' : 'speed';
      sink.stray(reason, bytes);
    },
  });

  return {
    get trouble() {
      return trouble;
    },
    get line() {
      return line;
    },
    take: (chunk) => reader.push(chunk),
    begin() {},
    end() {},
    pace() {},
  };
}
