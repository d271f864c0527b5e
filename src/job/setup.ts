import type {
  AirSource,
  AirTestMethod,
  CountsFrom,
  Criterion,
  CuredBy,
  Exotherm,
  GaugeKind,
  Heating,
  Infiltration,
  Line,
  Material,
  Place,
  Role,
  Signal,
  Tap,
  ThermocoupleClass,
  ThermocoupleType,
  Wetness,
} from './codes.ts';

/**
 * The Setup: everything that the sensing and the watch need to know of a job, as plain numbers. It is made by
 * the plan, numbered, never changed; a later Setup is a logged input, and within a run the ceiling only falls.
 */

export type { GaugeKind, Heating, Infiltration, Line, Place, Tap, ThermocoupleType, Wetness };

/** A point of a calibration: the channel's own indicated value before correction, beside the reference. */
export interface CalibrationPoint {
  /** bar or °C indicated with the nominal scale. */
  readonly indicated: number;
  /** bar or °C of the reference. */
  readonly reference: number;
}

/** Corrected = offset + gain · indicated. Belongs to device + channel + sensor serial. */
export interface Calibration {
  readonly deviceId: string;
  readonly channel: number;
  readonly sensorSerial: string;
  /** ISO date of the calibration. */
  readonly date: string;
  readonly asFound: readonly CalibrationPoint[];
  readonly asLeft: readonly CalibrationPoint[];
  readonly offset: number;
  readonly gain: number;
  /** Standard uncertainty of the reference, bar or K. */
  readonly uReference: number;
  /** Standard deviation of the residuals of the fit, bar or K. */
  readonly uResidual: number;
}

export interface ChannelSetup {
  /** Of the device that the guard goes by; of the second adapter from FIRST_BESIDE on (job/beside.ts). */
  readonly index: number;
  readonly role: Role;
  readonly place: Place | null;
  readonly signal: Signal;
  readonly thermocouple: ThermocoupleType | null;
  readonly thermocoupleClass: ThermocoupleClass | null;
  readonly gaugeKind: GaugeKind | null;
  readonly partner: number | null;
  readonly bits: number;
  readonly rawLo: number;
  readonly rawHi: number;
  readonly elLo: number;
  readonly elHi: number;
  /** Signal at the ends of the sensor's span, electrical units of the signal (e.g. 4000 and 20 000 µA). */
  readonly spanElLo: number;
  readonly spanElHi: number;
  /** Sensor's span, bar or °C. */
  readonly rangeLo: number;
  readonly rangeHi: number;
  readonly calibration: Calibration | null;
  /** Standard uncertainty of the sensor where there is no calibration (type B, from its sheet), bar or K. */
  readonly uSensor: number;
  /** What a kelvin of the sensor's own warmth moves it by, share of its span; left out where its sheet does not say. */
  readonly perKelvin?: number;
  /** Serial of the sensor's document; left out where the job names none. */
  readonly sensorSerial?: string | undefined;
}

export interface Limits {
  /** Maker's maximum gauge pressure at this diameter, bar. */
  readonly ratedBar: number;
  /** Expanded uncertainty (k = 2) of the reading at rated, bar. */
  readonly uBar: number;
  /** What everything warns against: rated − U; rated itself where working = rated was chosen with a reason. */
  readonly ceilingBar: number;
  readonly workingBar: number;
  /** Seat pressure, bar; null: no seat pause planned. */
  readonly seatBar: number | null;
  /** Lower edge of the hold band, bar; null where a part is not known (then hold says so). */
  readonly floorBar: number | null;
  readonly headBar: number | null;
  readonly freeInflationBar: number | null;
  readonly seatingMarginBar: number;
  /** Working at the rated value, with its reason: the standing 'no margin' mark. */
  readonly noMargin: { readonly reason: string } | null;
  /** Working pressure was given, so that a cue can count down to it. */
  readonly cue: boolean;
}

export interface CureTimePoint {
  /** °C */
  readonly c: number;
  /** Minutes to the sheet's end criterion. */
  readonly minutes: number;
}

export interface ResinSetup {
  readonly name: string;
  /** By light: cure is not judged. A Setup of before it was asked has none: by time and temperature. */
  readonly curedBy?: CuredBy;
  readonly criterion: Criterion;
  /** What the sheet's times count from. A Setup of before it was asked has none: from seating on. */
  readonly countsFrom?: CountsFrom;
  /** Of the mix as it was typed, °C; none where nobody did. */
  readonly potC?: number;
  readonly points: readonly CureTimePoint[];
  /** Lowest temperature the sheet allows, °C; null: the coldest point. */
  readonly lowestC: number | null;
  /** A cup of the mix that a probe stands in; none: there is none, or nothing of it was typed. */
  readonly cup?: CupSetup;
  /** Pot life at the mix temperature, minutes; null: not given. */
  readonly potLifeMin: number | null;
  readonly exotherm: Exotherm;
  /** Expected temperature rise of the air in the packer by the exotherm, K; null: not known. */
  readonly expectedRiseK: number | null;
}

/** What the resin's document has learnt from cups of earlier batches that were accepted, in the vessel that is used. */
export interface CupMark {
  /** The sheet's time at the cup's temperature that had passed at its greatest output of heat (1 = all of it). */
  readonly age: number;
  /** By how much one batch's may differ from it, 1 s, as a share. */
  readonly scatter: number;
  /** By how much the cups warmed at the least, K. */
  readonly riseK: number;
  readonly batches: number;
}

export interface CupSetup {
  readonly massG: number;
  /** null: nothing is known of this resin in such a cup. */
  readonly mark: CupMark | null;
}

export interface PipeSetup {
  readonly innerMm: number;
  readonly wallMm: number | null;
  readonly material: Material;
  readonly sleeveMm: number | null;
}

/** Reaction times and delays that the crew may set, each inside safe limits (job/reaction.ts). */
export interface Reaction {
  /** Least time a hand needs to act on an urgent alarm, s. Default 3, 2-10. */
  readonly handS: number;
  /** Time a hand needs to close the valve once it acts, s. Default 0.6, 0.3-2. */
  readonly closeS: number;
}

/** What of the job the air test is made of (air-test.ts has its numbers). */
export interface AirTestSetup {
  readonly method: AirTestMethod;
  /** Inner diameter or DN, mm. */
  readonly mm: number;
  /** Pipe between the plugs, m; null: not known (EN 1610 does not ask). */
  readonly lengthM: number | null;
  /** Groundwater over the pipe, bar; null: not known, or none. */
  readonly headBar: number | null;
}

export interface Setup {
  readonly number: number;
  readonly practice: boolean;
  readonly jobId: string | null;
  /** null: "no limit set: gauge only". */
  readonly limits: Limits | null;
  readonly tap: Tap;
  readonly line: Line;
  readonly channels: readonly ChannelSetup[];
  /** Name of the second adapter, whose channels those from FIRST_BESIDE on are; left out: there is none. */
  readonly besideId?: string;
  /** Air pressure, bar absolute. */
  readonly air: {
    readonly bar: number;
    readonly uBar: number;
    readonly source: AirSource;
  };
  readonly ground: { readonly c: number; readonly uC: number } | null;
  /** Seen at the defect when the job was planned; a Setup of before it was asked has none: not looked. */
  readonly infiltration?: Infiltration;
  /** What warms the packer from outside; a Setup of before it was asked has none: nothing does. */
  readonly heating?: Heating;
  /** Liquid water in the line; a Setup of before it was asked has none: dry. */
  readonly wetness?: Wetness;
  /** The packer was over its rating in an earlier run, and nobody has inspected it since. */
  readonly inspectFirst?: boolean;
  /** The air test of the finished repair that the job names; a Setup without it has none. */
  readonly airTest?: AirTestSetup;
  /** Another packer hangs on the same line, and only one of them is seen. */
  readonly sharedLine?: boolean;
  /** Gas volume of packer and hose at working pressure, litres; null: not known. */
  readonly volume: { readonly litres: number; readonly uLitres: number } | null;
  readonly pipe: PipeSetup | null;
  readonly resin: ResinSetup | null;
  readonly reaction: Reaction;
  /** Expanded uncertainty (k = 2) of the dial gauge as it is read, bar; left out where it is not known. */
  readonly gaugeUBar?: number | undefined;
  /** Sample rate asked of the device, Hz. */
  readonly rateHz: number;
}
