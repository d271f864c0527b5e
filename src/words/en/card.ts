/** Words of the card that is printed for where no screen is looked at; its orders, stages and cautions are those of the program. */
export const CARD = {
  lead: 'One sheet of paper for where nobody looks at a screen. Its orders are those of the screen.',
  print: 'Print the card',
  forJob: 'For the job',
  blank: 'Blank, to write on',
  gone: 'This job sheet is no longer there: the card is blank.',

  numbers: 'This job',
  potLife: 'Pot life',
  hold: 'Hold at least',
  /** @param c the temperature of the data sheet's row */
  holdAt: (c: string) => `Hold at least (${c})`,
  mixed: 'Mixed at',
  held: 'Held from',
  until: 'Hold until',
  who: 'Crew',
  call: 'Emergency call',
  cure: 'Cure time',
  planned: (date: string) => `Planned ${date}. Where the screen says less, the screen is right.`,
  refused: 'THE PLAN REFUSES THIS JOB: see the job sheet.',

  work: 'Order of the work',
  alarms: 'Alarm: what to do first',
  otherwise: 'otherwise',
  /** What a low alarm asks for. */
  low: 'as the screen says',

  dark: 'Screen dark or frozen, computer dead: by gauge and watch',
  darkSteps: (ceiling: string | null): readonly string[] => [
    'Shut the supply valve. Everyone clear.',
    'Read the dial gauge. Note pressure and time, every 5 min.',
    ceiling === null
      ? 'At the ceiling or over: let out by the vent.'
      : `At ${ceiling} or over: let out by the vent.`,
    'Hold by the watch, no shorter. Then feel the sample.',
    'Let down by the vent. A gauge at zero: not yet empty.',
  ],

  cautions: 'Cautions',
  local:
    'Never over the rated pressure. Local codes, permits and makers’ instructions come first; licensed work is for the licensed.',
};
