import { scanRun } from '../../record/reader.ts';
import { Digest } from '../../watch/testing/digest.ts';
import { createRun, type Run, stepRun } from '../core.ts';

const EACH = 500;
const SILENT = { event: () => undefined };

/** What a run's file comes to on its way, as watch/testing/digest.ts has it, with what sensing and the intake know. */
export function statesOf(file: Uint8Array): Readonly<Record<string, string>> {
  const digest = new Digest();
  let run: Run | null = null;
  let samples = 0;
  scanRun(file, {
    page: ({ head }) => {
      if (head !== null) run ??= createRun(head);
    },
    entry: (entry) => {
      if (run === null) return;
      stepRun(run, entry, SILENT);
      if (entry.l !== 'frame' || entry.frame.t !== 'S' || ++samples % EACH !== 0) return;
      const { watch, ...rest } = run;
      digest.look(watch, entry.tUs);
      for (const [name, value] of Object.entries(rest)) digest.take(`run ${name}`, value);
    },
  });
  return digest.of;
}
