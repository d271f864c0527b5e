import type { ChannelSetup, Place, ThermocoupleType } from '../job/setup.ts';
import type { ChannelFrame, Signal } from '../link/frames.ts';

/** Relative uncertainty of a pressure sensor of which nothing is known: ±1 % of its span, rectangular. */
const UNKNOWN_ACCURACY = 0.01 / Math.sqrt(3);
/** A cold junction and a thermocouple input of which nothing is known, standard uncertainty in K (common practice). */
const U_JUNCTION_K = 0.5;
const U_INPUT_K = 0.5;

/** Span of the signal where the device says nothing of it: 4-20 mA, 0.5-4.5 V of 5 V, 0-10 V (common practice). */
function usualSpan(signal: Signal, rangeLo: number, rangeHi: number): readonly [number, number] {
  switch (signal) {
    case 'current':
      return [4000, 20_000];
    case 'ratio':
      return [100_000, 900_000];
    case 'voltage':
      return [0, 10_000_000];
    default:
      return [rangeLo, rangeHi];
  }
}

const THERMOCOUPLE: Readonly<Record<string, ThermocoupleType>> = {
  'tc-k': 'K',
  'tc-j': 'J',
  'tc-t': 'T',
  'tc-n': 'N',
  'tc-e': 'E',
};
const PLACES: readonly string[] = ['sleeve', 'air', 'pipe', 'ground'];
const isPlace = (p: string | null): p is Place => p !== null && PLACES.includes(p);

/**
 * What the device's own description of its channels amounts to: a suggestion that the job overrules. There is no
 * calibration in it. The first pressure channel is taken, further ones are left unused. A supply channel's range is in
 * volts; its middle is the nominal supply of the ratiometric channels that name it.
 */
export function suggestChannels(channels: readonly ChannelFrame[]): ChannelSetup[] {
  let havePressure = false;
  return channels.map((c): ChannelSetup => {
    const type = THERMOCOUPLE[c.signal] ?? null;
    const per = c.quantity === 'press' ? 1e5 : c.quantity === 'supply' ? 1e6 : 1e3;
    const rangeLo = c.rangeLo / per;
    const rangeHi = c.rangeHi / per;
    const [spanElLo, spanElHi] =
      c.quantity === 'supply' ? [c.rangeLo, c.rangeHi] : usualSpan(c.signal, c.rangeLo, c.rangeHi);
    let role: ChannelSetup['role'];
    switch (c.quantity) {
      case 'press':
        role = havePressure ? 'unused' : 'pressure';
        havePressure = true;
        break;
      case 'temp':
        role = 'temperature';
        break;
      case 'supply':
        role = 'supply';
        break;
      case 'junct':
        role = 'junction';
        break;
    }
    return {
      index: c.index,
      role,
      place: role === 'temperature' && isPlace(c.place) ? c.place : null,
      signal: type !== null ? 'thermocouple' : (c.signal as 'current' | 'ratio' | 'voltage' | 'digital'),
      thermocouple: type,
      thermocoupleClass: type === null ? null : 2,
      gaugeKind: role === 'pressure' ? 'gauge' : null,
      partner: c.partner,
      bits: c.bits,
      rawLo: c.rawLo,
      rawHi: c.rawHi,
      elLo: c.elLo,
      elHi: c.elHi,
      spanElLo,
      spanElHi,
      rangeLo,
      rangeHi,
      calibration: null,
      uSensor:
        c.quantity === 'press'
          ? UNKNOWN_ACCURACY * Math.abs(rangeHi - rangeLo)
          : c.quantity === 'junct'
            ? U_JUNCTION_K
            : U_INPUT_K,
    };
  });
}
