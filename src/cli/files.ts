import { readFileSync, statSync } from 'node:fs';
import { fault, InputFault } from './fault.ts';

const codeOf = (cause: unknown): string => String((cause as NodeJS.ErrnoException).code);

/**
 * What `use` makes of a file that the command line names.
 * @param named as it stands on the line, its option before it
 * @throws InputFault naming it
 */
export function usedFile<T>(name: string, named: string, most: number, use: (name: string) => T): T {
  try {
    const stat = statSync(name);
    const { size } = stat;
    if (stat.isDirectory()) throw fault((f) => f.notAFile(named));
    if (size > most) throw fault((f) => f.tooLarge(named, size, most));
    return use(name);
  } catch (cause) {
    if (cause instanceof InputFault) throw cause;
    const code = codeOf(cause);
    throw fault((f) => (code === 'ENOENT' ? f.noSuchFile(named) : f.unreadable(named, code)));
  }
}

/** The bytes of a file that the command line names. @throws InputFault as usedFile */
export const readFileNamed = (name: string, named: string, most: number): Uint8Array =>
  usedFile(name, named, most, (found) => readFileSync(found));
