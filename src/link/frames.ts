/**
 * The frames of the Steadybar device protocol, version 1, as values. firmware-protocol/SPEC.md is the
 * specification; its vectors are run against this codec and against the C reference.
 *
 * One line of ASCII a frame, fields parted by commas, closed by CRC-32C (Castagnoli) in eight lower-case hex
 * digits over every byte up to and including the comma before it, then LF. A frame has exactly one byte form:
 * integers have no sign but a leading '-', no leading zeros and no '-0'; an absent value is an empty field.
 */

export const PROTOCOL_VERSION = 1;

/** Longest line in bytes, LF included. Longer input is discarded up to the next LF. */
export const MAX_LINE = 128;

/** One device tick is 100 µs; the counter is 32 bits wide and wraps after 119.3 h. */
export const TICK_S = 1e-4;

/** What a channel measures: line pressure, a temperature, a supply or reference voltage, a cold junction. */
export type Quantity = 'press' | 'temp' | 'supply' | 'junct';

/**
 * How the quantity reaches the converter, and with it the electrical unit of elLo/elHi:
 * current µA · ratio parts per million of the supply · voltage µV · digital Pa or m°C · tc-x nV.
 */
export type Signal = 'current' | 'ratio' | 'voltage' | 'digital' | 'tc-k' | 'tc-j' | 'tc-t' | 'tc-n' | 'tc-e';

/** Where the device believes the channel sits: a suggestion only, the job decides. */
export type SuggestedPlace = 'packer' | 'hose' | 'supply' | 'sleeve' | 'air' | 'pipe' | 'ground' | null;

/** Hello, one line for the device. `H,version,deviceId,firmware,bootId,uptime,channels,maxRateHz,crc` */
export interface HelloFrame {
  readonly t: 'H';
  readonly version: number;
  /** 1-16 of A-Z a-z 0-9 . _ - */
  readonly deviceId: string;
  /** 1-16 of A-Z a-z 0-9 . _ - */
  readonly firmware: string;
  /** Differs after each start of the device, uint32. */
  readonly bootId: number;
  /** Ticks since start, uint32, wraps. */
  readonly uptime: number;
  readonly channels: number;
  readonly maxRateHz: number;
}

/**
 * Hello, one line a channel, in order of index after `H`.
 * `C,index,quantity,place,signal,partner,bits,rawLo,rawHi,elLo,elHi,rangeLo,rangeHi,rateMilliHz,crc`
 */
export interface ChannelFrame {
  readonly t: 'C';
  readonly index: number;
  readonly quantity: Quantity;
  readonly place: SuggestedPlace;
  readonly signal: Signal;
  /** Index of the supply channel of a ratiometric signal, or of the cold junction of a thermocouple. */
  readonly partner: number | null;
  /** Effective resolution of the converter, 8-32. */
  readonly bits: number;
  /** Two points of the converter: counts rawLo..rawHi stand for elLo..elHi in the signal's electrical unit. */
  readonly rawLo: number;
  readonly rawHi: number;
  readonly elLo: number;
  readonly elHi: number;
  /** The sensor's span: Pa for press, m°C for temp and junct, µV for supply. */
  readonly rangeLo: number;
  readonly rangeHi: number;
  /** New conversions per 1000 s. */
  readonly rateMilliHz: number;
}

/** A sample. `S,seq,tick,c0,…,cN-1,status,crc`; an empty count means no new conversion since the last line. */
export interface SampleFrame {
  readonly t: 'S';
  /** Taken at sampling, uint32, wraps; a dropped line shows as a gap. */
  readonly seq: number;
  /** Device clock at sampling in ticks, uint32, wraps. */
  readonly tick: number;
  /** Raw counts, int32, null for no new conversion; as many as the device has channels. */
  readonly counts: readonly (number | null)[];
  /** Bits of STATUS. */
  readonly status: number;
}

/** Bits of a sample's status field, 16 bits; unknown bits are kept and ignored. */
export const STATUS = {
  /** Lines were dropped since the last one that left (the line was full). */
  dropped: 1,
  /** A conversion came late or was lost. */
  overrun: 2,
  /** The device's own limit is armed. */
  armed: 4,
  /** The device's own limit is tripped now. */
  tripped: 8,
  /** The device's own supply is low. */
  supplyLow: 16,
  /** No heartbeat from the host for 3 s. */
  hostSilent: 32,
  /** The button is held. */
  button: 64,
} as const;

export type DeviceEventCode = 'boot' | 'button' | 'trip' | 'return' | 'fault' | 'hostlost' | 'hostback';

/** Something happened on the device. `E,number,tick,code,channel,value,crc` */
export interface EventFrame {
  readonly t: 'E';
  /** Counts events since boot, uint16, wraps; a gap is a lost event. */
  readonly number: number;
  readonly tick: number;
  readonly code: DeviceEventCode;
  readonly channel: number | null;
  readonly value: number | null;
}

export type DeviceGuardState = 'unarmed' | 'armed' | 'tripped' | 'silenced';

/** The device's own limit. `G,tick,state,channel,limitCounts,limitMbar,sounder,crc`; once a second and on change. */
export interface GuardFrame {
  readonly t: 'G';
  readonly tick: number;
  readonly state: DeviceGuardState;
  readonly channel: number | null;
  readonly limitCounts: number | null;
  readonly limitMbar: number | null;
  /** 1 while the sounder sounds, else 0. */
  readonly sounder: 0 | 1;
}

export type ReplyResult = 'ok' | 'clamped' | 'refused' | 'range' | 'unknown' | 'busy';

/** Answer to the host's command of that number. `R,command,result,value,crc` */
export interface ReplyFrame {
  readonly t: 'R';
  readonly command: number;
  readonly result: ReplyResult;
  /** What was kept: the rate for start, counts for limit; else null. */
  readonly value: number | null;
}

export type DeviceFrame = HelloFrame | ChannelFrame | SampleFrame | EventFrame | GuardFrame | ReplyFrame;

/**
 * Host to device. `K,number,verb[,arg…],crc`. A repeated number is answered again and not carried out twice.
 * hello · start,rateHz · stop · beat · limit,channel,counts,mbar · read · disarm · silence
 */
export type HostVerb =
  | { readonly verb: 'hello' }
  | { readonly verb: 'start'; readonly rateHz: number }
  | { readonly verb: 'stop' }
  | { readonly verb: 'beat' }
  | { readonly verb: 'limit'; readonly channel: number; readonly counts: number; readonly mbar: number }
  | { readonly verb: 'read' }
  | { readonly verb: 'disarm' }
  | { readonly verb: 'silence' };

export interface CommandFrame {
  readonly t: 'K';
  /** uint16, wraps, never repeated for a new command within 65 535. */
  readonly number: number;
  readonly command: HostVerb;
}

export type Frame = DeviceFrame | CommandFrame;

/** Why bytes between frames were not a frame. */
export type StrayReason =
  | 'garbage' // no known frame letter, or bytes outside printable ASCII
  | 'crc' // well-formed, CRC differs
  | 'form' // CRC right, but not the one canonical form, or a value out of its range
  | 'long' // more than MAX_LINE bytes without LF
  | 'partial' // the first bytes after opening, up to the first LF
  | 'unknown'; // CRC right, frame letter of a later version
