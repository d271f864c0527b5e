import type { LinkError } from './status.ts';

/** Why a link cannot be had, with the code that has its words in the catalogue. */
export class LinkFault extends Error {
  override readonly name = 'LinkFault';
  constructor(
    readonly code: LinkError,
    message: string,
    /** The same port may answer at another speed. */
    readonly otherSpeed = false,
  ) {
    super(message);
  }
}
