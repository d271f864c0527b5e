/** Runs the cases of the file contract where sync access handles exist: in a dedicated worker. */
import { createOpfsStore } from '../opfs.ts';
import { fileCases } from './file-contract.ts';

let counter = 0;

async function runCase(name: string): Promise<void> {
  const found = fileCases.find((c) => c.name === name);
  if (found === undefined) throw new Error(`no case ${name}`);
  const folder = `contract-${counter++}`;
  const root = await navigator.storage.getDirectory();
  // The profile may outlive a run of the tests.
  await root.removeEntry(folder, { recursive: true }).catch(() => undefined);
  try {
    await found.run(await createOpfsStore(folder), () => createOpfsStore(folder));
  } finally {
    await root.removeEntry(folder, { recursive: true }).catch(() => undefined);
  }
}

addEventListener('message', (event: MessageEvent<string>) => {
  runCase(event.data).then(
    () => self.postMessage(null),
    (error: unknown) => self.postMessage(error instanceof Error ? error.message : String(error)),
  );
});
