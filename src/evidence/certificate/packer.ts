import type { PackerDocument } from '../../job/packer-document.ts';
import type { Catalogue } from '../../words/catalogue.ts';

type Tell = (packer: PackerDocument, words: Catalogue) => string;

/** What the page tells of a packer's document; null: nothing of it, or by what the plan made of it. */
const TOLD: { readonly [M in keyof PackerDocument]: Tell | null } = {
  name: ({ name }) => name,
  serial: ({ serial }, words) => (serial === '' ? '' : words.certificate.CERTIFICATE.serial(serial)),
  version: null,
  sizes: null,
  plate: null,
  ratings: null, // the rated pressure at the pipe's diameter
  plateReadBar: null,
  usable: null,
  freeInflation: null, // in the lower edge of the band
  volume: null,
  reliefBar: null,
  retired: null,
  conditions: null,
  earlierCycles: null,
  notes: null,
};

/** Texts in the order of the table, empty ones among them; none without a packer. */
export const packerTold = (packer: PackerDocument | null, words: Catalogue): readonly string[] =>
  packer === null ? [] : Object.values(TOLD).flatMap((tell) => tell?.(packer, words) ?? []);
