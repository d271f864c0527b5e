import { english } from '../../words/testing/english.ts';
import { InputFault } from '../fault.ts';

/** What the reader is told of the input that `work` refuses. @throws whatever else it throws, or when it refuses nothing */
export function faultOf(work: () => unknown): string {
  try {
    work();
  } catch (cause) {
    if (cause instanceof InputFault) return cause.text(english);
    throw cause;
  }
  throw new Error('nothing was refused');
}

/** The same of work that takes its time. */
export async function faultIn(work: Promise<unknown>): Promise<string> {
  const done = await work.then(
    () => () => undefined,
    (cause: unknown) => () => {
      throw cause;
    },
  );
  return faultOf(done);
}
