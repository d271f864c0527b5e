import { readFileSync, statSync } from 'node:fs';
import { fault, InputFault } from './fault.ts';

const codeOf = (cause: unknown): string => String((cause as NodeJS.ErrnoException).code);

/**
 * A file that the command line names.
 * @param named as it stands on the line, its option before it
 * @throws InputFault naming it
 */
export function readFileNamed(name: string, named: string, most: number): Uint8Array {
  try {
    const stat = statSync(name);
    const { size } = stat;
    if (stat.isDirectory()) throw fault((f) => f.notAFile(named));
    if (size > most) throw fault((f) => f.tooLarge(named, size, most));
    return readFileSync(name);
  } catch (cause) {
    if (cause instanceof InputFault) throw cause;
    const code = codeOf(cause);
    throw fault((f) => (code === 'ENOENT' ? f.noSuchFile(named) : f.unreadable(named, code)));
  }
}
