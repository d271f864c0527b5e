/** Pictures of docs/guide.md, in the order of the guide, each with the window that it is taken in. A test holds guide and list together. */

/** Of the live page, and of all other pages at one width. */
export const GUIDE_LIVE = { width: 1180, height: 820 };
export const GUIDE_PAGE_WIDTH = 820;

export const GUIDE_PICTURES = [
  'start',
  'packer',
  'people',
  'refused',
  'plan',
  'day',
  'connect',
  'choose-packer',
  'zero',
  'checklist',
  'warm',
  'supply',
  'mix',
  'mixed',
  'seat',
  'gauge',
  'cue',
  'alarm',
  'hold',
  'lost',
  'cure',
  'let-down',
  'vent-test',
  'done',
] as const;
export type GuidePicture = (typeof GUIDE_PICTURES)[number];

/** Where they are kept, beside the other pictures. */
export const GUIDE_FOLDER = 'guide';
