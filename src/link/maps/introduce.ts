/** The hello of a source that cannot say one: made of its reading map, in the same frames. */
import { REGISTER_TYPES } from '../../job/codes.ts';
import type { MapChannel, ReadingMap } from '../../job/reading-map.ts';
import { type ChannelFrame, PROTOCOL_VERSION, type Quantity } from '../frames.ts';
import type { Greeting } from '../greeting.ts';
import { paceOf } from '../modbus/asks.ts';
import { countsAStep, countsOfValue } from './scale.ts';

const QUANTITY: { readonly [Q in MapChannel['quantity']]: Quantity } = {
  pressure: 'press',
  temperature: 'temp',
};

const [LEAST_BITS, MOST_BITS] = [8, 32];
const MOST_RATE_HZ = 1000;

/** Resolution: whole registers step by their scale; a float or a decimal number is taken to be finer than a count. */
function bitsOf(c: MapChannel, span: number): number {
  const isWhole = 'type' in c && c.type !== 'float32' && REGISTER_TYPES.includes(c.type);
  const step = isWhole ? countsAStep(c, 1) : 1;
  return Math.min(MOST_BITS, Math.max(LEAST_BITS, Math.floor(Math.log2(span / step))));
}

/** Counts are the electrical unit already (Pa, m°C): both points of the converter are the ends of the span. */
function channelFrame(c: MapChannel, index: number, rateHz: number): ChannelFrame {
  const lo = countsOfValue(c, c.lo);
  const hi = countsOfValue(c, c.hi);
  const everyHz = 'everyMs' in c ? 1000 / c.everyMs : rateHz;
  return {
    t: 'C',
    index,
    quantity: QUANTITY[c.quantity],
    place: c.place === 'not-said' ? null : c.place,
    signal: 'digital',
    partner: null,
    bits: bitsOf(c, hi - lo),
    rawLo: lo,
    rawHi: hi,
    elLo: lo,
    elHi: hi,
    rangeLo: lo,
    rangeHi: hi,
    rateMilliHz: Math.max(1, Math.round(everyHz * 1000)),
  };
}

/** What a plain line is taken to bring until it is known, lines a second (common practice, no source). */
const LINE_HZ = 10;

/** Pressure readings a second that are to be had of it at best, Hz. */
export function rateOf(map: ReadingMap): number {
  if (map.is === 'columns') return LINE_HZ;
  const { askedHz, mostHz } = paceOf(map);
  return Math.min(askedHz, mostHz);
}

/**
 * @param bootId of the host's clock, which stands for the device's
 * @param tick of that clock now
 */
export function introduce(map: ReadingMap, bootId: number, tick: number): Greeting {
  const rateHz = rateOf(map);
  return {
    hello: {
      t: 'H',
      version: PROTOCOL_VERSION,
      deviceId: map.deviceId,
      firmware: map.is,
      bootId,
      uptime: tick,
      channels: map.channels.length,
      maxRateHz: Math.min(MOST_RATE_HZ, Math.max(1, Math.floor(rateHz))),
    },
    channels: map.channels.map((c, i) => channelFrame(c, i, rateHz)),
    map,
  };
}
