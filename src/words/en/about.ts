/** Words of the about page. */
export const ABOUT = {
  title: 'About',
  lead: 'This program watches and warns. It is no safety device and no replacement for a relief valve.',
  cautions: 'Cautions',
  howTitle: 'What it does',
  how: [
    'It reads the pressure sensor and the thermocouples on a packer’s inflation line and warns before the packer’s rated pressure is reached.',
    'It follows the hold and the cure time, and keeps a record of everything that came from the device.',
    'It works without a network. Records stay in this browser until you save them elsewhere.',
  ],
  cannotTitle: 'What it cannot know',
  cannot: [
    'Whether the sensor sits where the job sheet says, or reads right: compare the dial gauge.',
    'What the pressure is while no reading arrives: then shut the supply valve and treat the packer as full.',
    'Whether the resin is hard: only the witness sample kept at pipe temperature tells.',
    'Whether the packer is empty: a line at zero does not tell.',
  ],
  licences: 'Libraries and font in this program',
  licencesText: 'Each under its own licence, with the text that came with it.',
  noText: 'The package carries no text of its licence.',
  version: (version: string) => `Steadybar ${version}`,
};
