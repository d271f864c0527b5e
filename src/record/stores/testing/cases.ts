/**
 * A contract as a list of cases that need no test framework, so that the very same cases run in Node and inside a
 * worker of a browser, where no framework reaches.
 */
export interface Case<S> {
  readonly name: string;
  /** Fresh store each; `again` opens the same storage as after a restart of the program. */
  readonly run: (store: S, again: () => Promise<S>) => Promise<void>;
}

export function equal(got: unknown, wanted: unknown, what: string): void {
  const [a, b] = [show(got), show(wanted)];
  if (a !== b) throw new Error(`${what}: got ${a}, wanted ${b}`);
}

const show = (v: unknown): string =>
  JSON.stringify(v, (_k, x: unknown) => (x instanceof Uint8Array ? `bytes ${[...x].join(' ')}` : x)) ??
  'undefined';

/** The call must fail with a StoreError of that code. */
export async function refused(code: string, what: string, work: () => unknown): Promise<void> {
  try {
    await work();
  } catch (error) {
    const e = error as { name?: unknown; code?: unknown };
    equal([e.name, e.code], ['StoreError', code], what);
    return;
  }
  throw new Error(`${what}: went through, should be refused as ${code}`);
}
