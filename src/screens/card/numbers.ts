import type { JobBundle } from '../../job/bundle.ts';
import type { Setup } from '../../job/setup.ts';
import { holdByWatch } from '../../plan/hold-time.ts';
import { CARD } from '../../words/card.ts';
import { type DisplayUnits, duration, pressure, temperature } from '../../words/format.ts';
import { STAGE } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';

/** A number of the card: its name, and its value; null: a line to write on. */
export interface CardNumber {
  readonly name: string;
  readonly value: string | null;
  /** The value is what somebody typed: smaller, and as much of it as finds room. */
  readonly isTyped?: true;
}

export interface CardNumbers {
  readonly pressures: readonly CardNumber[];
  readonly times: readonly CardNumber[];
  /** What nobody knows before: lines with their names beside them. */
  readonly written: readonly string[];
  /** Rows of the resin's data sheet, in one line; null: none. */
  readonly cure: string | null;
}

/** Rows of a data sheet that find room in the card's line. */
const MOST_ROWS = 3;

/** @param setup null: of no job, all of it is written by hand */
export function cardNumbers(setup: Setup | null, bundle: JobBundle | null, units: DisplayUnits): CardNumbers {
  const limits = setup?.limits ?? null;
  const bar = (value: number | null | undefined) => (value == null ? null : pressure(value, units));
  const minutes = (value: number | null | undefined) => (value == null ? null : duration(value * 60));
  const resin = setup?.resin ?? null;
  const hold = holdByWatch(resin, setup?.ground ?? null);
  const points = resin === null || resin.curedBy === 'light' ? [] : resin.points;
  // From the row that the hold goes by on: the colder ones are not this job's.
  const from = Math.max(
    0,
    Math.min(
      points.findIndex((p) => p.c === hold?.c),
      points.length - MOST_ROWS,
    ),
  );
  const crew = bundle?.job.crew.trim() ?? '';
  return {
    pressures: [
      { name: UI.rated, value: bar(limits?.ratedBar) },
      { name: UI.ceiling, value: bar(limits?.ceilingBar) },
      { name: UI.working, value: bar(limits?.workingBar) },
      { name: STAGE.seat, value: bar(limits?.seatBar) },
      { name: UI.floor, value: bar(limits?.floorBar) },
    ],
    times: [
      { name: CARD.potLife, value: minutes(resin?.potLifeMin) },
      {
        name: hold === null ? CARD.hold : CARD.holdAt(temperature(hold.c, units)),
        value: minutes(hold?.minutes),
      },
      { name: CARD.who, value: crew === '' ? null : crew, isTyped: true },
      { name: CARD.call, value: null },
    ],
    written: [CARD.mixed, CARD.held, CARD.until],
    cure:
      points.length === 0
        ? null
        : points
            .slice(from, from + MOST_ROWS)
            .map((p) => `${temperature(p.c, units)} ${duration(p.minutes * 60)}`)
            .join(', '),
  };
}
