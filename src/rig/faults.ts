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
  /** The second transducer reads off by so much. */
  | { readonly fault: 'second-off'; readonly bar: number }
  | { readonly fault: 'second-lost' };

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
