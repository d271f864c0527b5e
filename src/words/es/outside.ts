import type { Format } from '../create-format.ts';
import { certificate } from './certificate.ts';
import * as checkText from './check-text.ts';
import * as commands from './commands.ts';
import * as overrides from './overrides.ts';
import * as packet from './packet.ts';
import * as picture from './picture.ts';

export const outside = (format: Format) => ({
  certificate: certificate(format),
  checkText,
  commands: { ...commands, VERIFY: commands.verifyWords(format) },
  overrides,
  packet,
  picture,
});
