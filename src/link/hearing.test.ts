import { describe, expect, it } from 'vitest';
import { createDecoder } from './decode.ts';
import { encodeFrame } from './encode.ts';
import { createHearing, LINE_SHOWN, shownLine } from './hearing.ts';
import { ascii, asText, join } from './testing/arbitraries.ts';
import { createScriptedDevice } from './testing/device.ts';
import { slowCrc } from './testing/slow.ts';

/** What a device says to a hello and then streams, as text. */
function spoken(): string {
  const said: Uint8Array[] = [];
  const device = createScriptedDevice((bytes) => said.push(bytes));
  device.receive(encodeFrame({ t: 'K', number: 1, command: { verb: 'hello' } }));
  device.receive(encodeFrame({ t: 'K', number: 2, command: { verb: 'start', rateHz: 50 } }));
  for (let i = 0; i < 10; i++) device.sample();
  return asText(join(said));
}

/** As an opening does: what the decoder takes for no frame is heard. */
function heardIn(bytes: Uint8Array) {
  const hearing = createHearing();
  const decoder = createDecoder('device');
  const sink = { frame: () => hearing.forget(), stray: hearing.stray };
  for (let at = 0; at < bytes.length; at += 7) decoder.push(bytes.slice(at, at + 7), sink);
  decoder.end(sink);
  return hearing.heard;
}

describe('what came instead of frames', () => {
  it('is nothing where frames come, and where an opening port clicks', () => {
    expect(heardIn(ascii(spoken()))).toEqual({ code: 'no-hello', line: null });
    expect(heardIn(new Uint8Array([0, 0, 255]))).toEqual({ code: 'no-hello', line: null });
  });

  it('names lines that end in CR LF, and in CR alone, and shows the CR', () => {
    for (const end of ['\r\n', '\r']) {
      const { code, line } = heardIn(ascii(spoken().replaceAll('\n', end)));
      expect(code).toBe('line-ends');
      expect(line).toContain('␍');
    }
  });

  it('names a check that does not match: other sum, upper case, no comma before it', () => {
    const lines = spoken();
    const sums = [
      lines.replaceAll(/[0-9a-f]{8}\n/g, '00c0ffee\n'),
      lines.replaceAll(/[0-9a-f]{8}\n/g, (sum) => sum.toUpperCase().replaceAll(/[0-9]/g, 'A')),
      lines.replaceAll(/,([0-9a-f]{8}\n)/g, '$1'),
    ];
    for (const text of sums) {
      const { code, line } = heardIn(ascii(text));
      expect(code).toBe('check');
      expect(line).toMatch(/^[SRCH],/);
    }
  });

  it('names a right check over a form that is none, or over a letter of no version', () => {
    const signed = (text: string) => `${text}${slowCrc(ascii(text)).toString(16).padStart(8, '0')}\n`;
    for (const text of ['R,01,ok,,', 'Z,1,'])
      expect(heardIn(ascii(`\n${signed(text)}`))).toEqual({ code: 'form', line: `${signed(text).trim()}␊` });
  });

  it('names a wrong speed, also where the system tells of nothing but framing errors', () => {
    const random = ascii(spoken()).map((b, i) => (b * 37 + i * 101) | (i % 3 === 0 ? 0 : 0x80));
    expect(heardIn(random).code).toBe('speed');
    const hearing = createHearing();
    hearing.disturbed();
    expect(hearing.heard).toEqual({ code: 'speed', line: null });
  });

  it('names another kind of text, with its last line', () => {
    const nmea = '$GPGGA,092750.000,5321.6802,N,00630.3372,W*76\n$GPGSA,A,3,10,07*05\n';
    expect(heardIn(ascii(nmea))).toEqual({ code: 'not-protocol', line: '$GPGSA,A,3,10,07*05␊' });
  });

  it('a frame afterwards makes it forgotten', () => {
    const hearing = createHearing();
    hearing.stray('crc', ascii('S,1,2,3,4,00000000\n'));
    expect(hearing.heard.code).toBe('check');
    hearing.forget();
    expect(hearing.heard).toEqual({ code: 'no-hello', line: null });
  });

  it('shows a line printable and bounded, whatever it holds', () => {
    const all = Uint8Array.from({ length: 128 }, (_, i) => i * 2);
    expect(shownLine(all).length).toBe(LINE_SHOWN);
    expect(shownLine(ascii('<b>\u0007\u007f'))).toBe('<b>␇·');
    for (let b = 0; b < 256; b++) expect(shownLine(new Uint8Array([b]))).toMatch(/^[ -~·\u2400-\u241f]$/u);
  });
});
