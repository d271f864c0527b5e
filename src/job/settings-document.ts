import * as z from 'zod/mini';
import { UNITS } from '../units/display.ts';
import { THEMES } from './codes.ts';
import { GAUGE_CLASSES } from './dial-gauge.ts';
import { line, num, quantity } from './fields.ts';
import { markSchema } from './mark.ts';
import { isBody, type StepsTo } from './migrations.ts';
import { hereSchema, peopleSchema } from './people.ts';
import { REACTION_LIMITS } from './reaction.ts';

export const reactionSchema = z.strictObject({
  handS: num(REACTION_LIMITS.handS.lo, REACTION_LIMITS.handS.hi, 's'),
  closeS: num(REACTION_LIMITS.closeS.lo, REACTION_LIMITS.closeS.hi, 's'),
});

/** A new version adds its step, and a test that reads the older one. */
export const settingsMigrations: StepsTo<SettingsDocument['version']> = [
  // Speech stays off where nobody chose it; a tablet that can shake does.
  (old) => ({
    ...old,
    sound: isBody(old.sound) ? { ...old.sound, speech: false, vibration: true } : old.sound,
  }),
];

export const settingsSchema = z.strictObject({
  version: z.literal(2),
  units: z.strictObject({
    pressure: z.enum(UNITS.pressure),
    temperature: z.enum(UNITS.temperature),
    length: z.enum(UNITS.length),
  }),
  decimal: z.enum(['auto', 'point', 'comma']),
  /** 'auto' or a language's tag (RFC 5646); which languages there are the catalogue knows. */
  language: z.string().check(z.regex(/^(auto|[a-z]{2,3}(-[A-Za-z0-9]{2,8}){0,4})$/)),
  sound: z.strictObject({
    /** The urgent alarm is never silent: this is its share of full volume. */
    volume: num(0.3, 1),
    cue: z.boolean(),
    /** One short order, spoken after the tone of an alarm. */
    speech: z.boolean(),
    vibration: z.boolean(),
  }),
  reaction: reactionSchema,
  /** The crew's dial gauge; left out: not known, a usual one is taken. */
  dialGauge: z.optional(
    z.strictObject({ spanBar: quantity('pressure', 0.5, 40), class: z.literal([...GAUGE_CLASSES]) }),
  ),
  firm: line(120),
  /** Stands on certificates beside the firm's name; left out: none. */
  mark: z.optional(markSchema),
  /** The firm's people by initials; left out: nobody was entered. */
  people: z.optional(peopleSchema),
  /** Who of them was here on which day, the newest last. */
  here: z.optional(hereSchema),
  theme: z.enum(THEMES),
});

export type SettingsDocument = z.infer<typeof settingsSchema>;
