import * as z from 'zod/mini';
import { GAUGE_CLASSES } from './dial-gauge.ts';
import { line, num } from './fields.ts';
import { REACTION_LIMITS } from './reaction.ts';

export const settingsSchema = z.strictObject({
  version: z.literal(1),
  units: z.strictObject({
    pressure: z.enum(['bar', 'kPa', 'psi']),
    temperature: z.enum(['C', 'F']),
    length: z.enum(['mm', 'in']),
  }),
  decimal: z.enum(['point', 'comma']),
  language: z.enum(['en']),
  sound: z.strictObject({
    /** The urgent alarm is never silent: this is its share of full volume. */
    volume: num(0.3, 1),
    cue: z.boolean(),
  }),
  reaction: z.strictObject({
    handS: num(REACTION_LIMITS.handS.lo, REACTION_LIMITS.handS.hi),
    closeS: num(REACTION_LIMITS.closeS.lo, REACTION_LIMITS.closeS.hi),
  }),
  /** The crew's dial gauge; left out: not known, a usual one is taken. */
  dialGauge: z.optional(z.strictObject({ spanBar: num(0.5, 40), class: z.literal([...GAUGE_CLASSES]) })),
  firm: line(120),
  theme: z.enum(['auto', 'light', 'dark', 'sun']),
});

export type SettingsDocument = z.infer<typeof settingsSchema>;
