/**
 * Spreads numbered tasks over processes of this same program. A task is known by its index alone and depends on
 * nothing else, so that the result is the same for any number of processes.
 */
import { type ChildProcess, fork } from 'node:child_process';
import os from 'node:os';

/** Set in a child: which module works there. */
const CHILD = 'CAMPAIGN_CHILD';

export function isChild(name: string): boolean {
  return process.env[CHILD] === name;
}

/** In a child: works on the indices that come in and answers each. */
export function serve<T>(work: (index: number) => T | Promise<T>): void {
  // One after the other: what works in slices shares its processor with none of its own kind.
  let turn: Promise<void> = Promise.resolve();
  process.on('message', (index: number) => {
    turn = turn.then(async () => {
      try {
        process.send?.({ index, result: await work(index), error: null });
      } catch (e) {
        process.send?.({ index, result: null, error: String(e) });
      }
    });
  });
  process.on('disconnect', () => process.exit(0));
  process.send?.('ready');
}

/** In the parent: results in the order of their index; null for a task that failed, which is told. */
export function spread<T>(
  name: string,
  count: number,
  progress: (done: number) => void,
  processes = Math.max(1, Math.min(2, os.cpus().length)),
): Promise<(T | null)[]> {
  const results = new Array<T | null>(count).fill(null);
  const children: ChildProcess[] = [];
  let next = 0;
  let done = 0;
  return new Promise((resolve, reject) => {
    if (count === 0) {
      resolve(results);
      return;
    }
    for (let i = 0; i < processes; i++) {
      const child = fork(process.argv[1]!, process.argv.slice(2), { env: { ...process.env, [CHILD]: name } });
      if (child.pid !== undefined) os.setPriority(child.pid, 10);
      const feed = () => {
        if (next < count) child.send(next++);
      };
      children.push(child);
      child.on('message', (m: 'ready' | { index: number; result: T | null; error: string | null }) => {
        if (m !== 'ready') {
          if (m.error !== null) console.error(`campaign: ${name} task ${m.index}: ${m.error}`);
          results[m.index] = m.result;
          done++;
          progress(done);
          if (done === count) {
            for (const c of children) c.disconnect();
            resolve(results);
          }
        } else feed(); // one task ahead, so that no child waits for an answer
        feed();
      });
      child.on('error', reject);
      child.on('exit', (code) => {
        if (code !== 0) reject(new Error(`a process of the campaign ended with ${code}`));
      });
    }
  });
}
