import { FIRST_BESIDE } from '../job/beside.ts';
import { PLACES } from '../job/codes.ts';
import { isPressureRole, pressureRoles } from '../job/pressure-roles.ts';
import type { ChannelSetup, ThermocoupleType } from '../job/setup.ts';
import {
  type ChannelFrame,
  type Quantity,
  type Signal,
  THERMOCOUPLE_SIGNALS,
  type ThermocoupleSignal,
} from '../link/frames.ts';

/** Relative uncertainty of a pressure sensor of which nothing is known: ±1 % of its span, rectangular. */
const UNKNOWN_ACCURACY = 0.01 / Math.sqrt(3);
/** A cold junction and a thermocouple input of which nothing is known, standard uncertainty in K (common practice). */
const U_JUNCTION_K = 0.5;
const U_INPUT_K = 0.5;

/** What the quantity is used for, and what a unit of its range is in the units of a job (bar, °C, V). */
const QUANTITY: {
  readonly [Q in Quantity]: { readonly role: ChannelSetup['role']; readonly per: number };
} = {
  press: { role: 'pressure', per: 1e5 },
  temp: { role: 'temperature', per: 1e3 },
  supply: { role: 'supply', per: 1e6 },
  junct: { role: 'junction', per: 1e3 },
};

/** The signal as a job names it: thermocouples are one, with their type beside it. */
function signalOf(word: Signal): Pick<ChannelSetup, 'signal' | 'thermocouple' | 'thermocoupleClass'> {
  if (!isThermocouple(word)) return { signal: word, thermocouple: null, thermocoupleClass: null };
  return { signal: 'thermocouple', thermocouple: typeOf(word), thermocoupleClass: 2 };
}

/** No span: such a scale is no straight line, so that nothing is read by it until a sensor's document states one. */
const NOT_STATED = [0, 0] as const;

/** Does it say which signal is the start and which the end of the sensor's span? */
export const isSpanStated = (ch: Pick<ChannelSetup, 'spanElLo' | 'spanElHi'>): boolean =>
  ch.spanElLo !== ch.spanElHi;

const TYPES = Object.keys(THERMOCOUPLE_SIGNALS) as ThermocoupleType[];
const typeOf = (word: ThermocoupleSignal): ThermocoupleType =>
  TYPES.find((t) => THERMOCOUPLE_SIGNALS[t] === word)!;
const isThermocouple = (word: Signal): word is ThermocoupleSignal =>
  TYPES.some((t) => THERMOCOUPLE_SIGNALS[t] === word);

/**
 * Electrical ends of the sensor's span by its kind of signal (firmware-protocol/SPEC.md, part 4, C). A voltage has none:
 * 0-10 V, 0-5 V and 0.5-4.5 V are as usual, and a guess would show a wrong pressure that looks right.
 */
function spanOf(signal: ChannelSetup['signal'], rangeLo: number, rangeHi: number): readonly [number, number] {
  switch (signal) {
    case 'current':
      return [4000, 20_000];
    case 'ratio':
      return [100_000, 900_000];
    case 'voltage':
      return NOT_STATED;
    case 'digital':
    case 'thermocouple':
      return [rangeLo, rangeHi];
  }
}

/**
 * What the device's own description of its channels amounts to: a suggestion that the job overrules. There is no
 * calibration in it. Which pressure is taken, and which stands beside it: pressureRoles. A supply channel's range is in
 * volts; its middle is the nominal supply of the ratiometric channels that name it.
 */
export function suggestChannels(channels: readonly ChannelFrame[]): ChannelSetup[] {
  const pressures = pressureRoles(channels);
  return channels.map((c, i): ChannelSetup => {
    const { per, role: usual } = QUANTITY[c.quantity];
    const role = pressures[i] ?? usual;
    const signal = signalOf(c.signal);
    const rangeLo = c.rangeLo / per;
    const rangeHi = c.rangeHi / per;
    const [spanElLo, spanElHi] =
      usual === 'supply' ? [c.rangeLo, c.rangeHi] : spanOf(signal.signal, c.rangeLo, c.rangeHi);
    return {
      index: c.index,
      role,
      place: role === 'temperature' ? (PLACES.find((p) => p === c.place) ?? null) : null,
      ...signal,
      gaugeKind: isPressureRole(role) ? 'gauge' : null,
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
        usual === 'pressure'
          ? UNKNOWN_ACCURACY * Math.abs(rangeHi - rangeLo)
          : usual === 'junction'
            ? U_JUNCTION_K
            : U_INPUT_K,
    };
  });
}

/**
 * The same of a second adapter, which serves for temperatures alone: the pressure is the first one's, and nothing else is
 * read of it but the cold junctions that its thermocouples need.
 */
export function suggestBeside(channels: readonly ChannelFrame[]): ChannelSetup[] {
  return suggestChannels(channels).map((ch) => ({
    ...ch,
    index: FIRST_BESIDE + ch.index,
    partner: ch.partner === null ? null : FIRST_BESIDE + ch.partner,
    role: ch.role === 'temperature' || ch.role === 'junction' ? ch.role : 'unused',
    gaugeKind: null,
  }));
}
