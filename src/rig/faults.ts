/** What can be done to the rig while it runs: hands and faults as data. */

/** Faults that it can be told to have, for practice and tests. */
export type RigFault =
  | { readonly fault: 'regulator'; readonly bar: number }
  | { readonly fault: 'creep'; readonly barPerMin: number }
  | { readonly fault: 'stuck-open' }
  | { readonly fault: 'leak'; readonly mbarPerMin: number }
  | { readonly fault: 'open-probe' }
  | { readonly fault: 'unplug' }
  | { readonly fault: 'replug' }
  | { readonly fault: 'reset' }
  | { readonly fault: 'garbage'; readonly bytes: number }
  | { readonly fault: 'silence'; readonly seconds: number }
  | { readonly fault: 'supply-sag' }
  /** The hose lets so much of its flow through; 1 mends it. */
  | { readonly fault: 'kink'; readonly open: number }
  /** The packer bursts: what is in it is gone at once, and what comes goes out by the same hole. */
  | { readonly fault: 'burst' }
  /** The hose flies off its coupling. */
  | { readonly fault: 'blown-hose' }
  /** The relief valve on the hose lifts at so much; a tired spring does so far under what it is set to. */
  | { readonly fault: 'relief'; readonly bar: number }
  /** The transducer's wire breaks. */
  | { readonly fault: 'first-lost' }
  /** The second transducer reads off by so much. */
  | { readonly fault: 'second-off'; readonly bar: number }
  | { readonly fault: 'second-lost' }
  /** The two transducers are plugged in for each other. */
  | { readonly fault: 'sensors-swapped' }
  /** The cup's probe hangs beside it, in the air. */
  | { readonly fault: 'cup-in-air' }
  /** The cup's probe lies in the sleeve, the sleeve's in the cup. */
  | { readonly fault: 'cup-swapped' }
  /** The hose lets so much air out, litres of free air a minute at 1.5 bar, on the packer or off it; 0 mends it. */
  | { readonly fault: 'hose-leak'; readonly lPerMin: number }
  /** Sensors and probes are put where they belong, the second reads right, the hose neither leaks nor kinks. */
  | { readonly fault: 'put-right' };

/** What the simulated crew does with its hands. */
export type RigHand =
  | { readonly hand: 'valve'; readonly open: number }
  | { readonly hand: 'regulator'; readonly bar: number }
  | { readonly hand: 'vent'; readonly open: boolean }
  | { readonly hand: 'couple'; readonly coupled: boolean }
  /** The end of a hose that is off the packer: shut by a valve, or open to the air. */
  | { readonly hand: 'end'; readonly shut: boolean }
  /** The tips of all thermocouples in a warm hand, instead of where they sit. */
  | { readonly hand: 'warm'; readonly held: boolean };

/** Something that happens at a time, in seconds since the rig was switched on. */
export type Happening = { readonly atS: number } & (RigFault | RigHand);

/** A fault or a hand by its name with its one figure, as a log keeps it; null: it has none. */
export interface Named {
  readonly name: string;
  readonly value: number | null;
}

export function namedFault(f: RigFault): Named {
  const { fault: name, ...rest } = f;
  return { name, value: Object.values(rest)[0] ?? null };
}

export function namedHand(h: RigHand): Named {
  const { hand: name, ...rest } = h;
  return { name, value: Number(Object.values(rest)[0]) };
}

/** The hand of that name; null: it is none of ours. */
export function handOf({ name, value }: Named): RigHand | null {
  if (value === null || !Number.isFinite(value)) return null;
  const on = value !== 0;
  switch (name) {
    case 'valve':
      return { hand: name, open: value };
    case 'regulator':
      return { hand: name, bar: value };
    case 'vent':
      return { hand: name, open: on };
    case 'couple':
      return { hand: name, coupled: on };
    case 'end':
      return { hand: name, shut: on };
    case 'warm':
      return { hand: name, held: on };
    default:
      return null;
  }
}
