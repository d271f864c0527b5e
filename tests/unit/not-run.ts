import { spawnSync } from 'node:child_process';
import type { TestContext } from 'vitest';

/** Says why a test cannot run on this machine; under CI the runner counts it as a failure. */
export function notRun(context: TestContext, reason: string): never {
  console.log(`not run: ${reason}`);
  context.skip(reason);
  throw new Error(reason); // skip() has thrown already: this line only tells the type checker so
}

/** The C compiler's command, or null. */
export function compiler(): string | null {
  return (
    ['cc', 'gcc', 'clang'].find((name) => spawnSync(name, ['--version'], { stdio: 'ignore' }).status === 0) ??
    null
  );
}
