import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { APART } from '../tools/apart.mjs';
import type { Answer, Task } from './tasks.ts';

/** A task that takes longer hangs: its child is ended with everything in it, and the next one begins anew, ms. */
const TASK_MS = 420_000;

function startChild(folder: string): ChildProcess {
  const script = path.join(import.meta.dirname, 'child.ts');
  const [unshare, ...words] = [...APART, process.execPath, '--import', 'tsx', script, folder];
  return spawn(unshare!, words, { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
}

/** Spreads the tasks over so many sites. @param tell called with each answer as it comes */
export async function runTasks(
  tasks: readonly Task[],
  sites: number,
  folder: string,
  tell: (answer: Answer) => void,
): Promise<Answer[]> {
  const answers: Answer[] = [];
  let next = 0;

  const work = async (): Promise<void> => {
    let child: ChildProcess | null = null;
    while (next < tasks.length) {
      const task = tasks[next++]!;
      child ??= startChild(folder);
      const answer = await ask(child, task);
      if ('error' in answer) {
        child.kill('SIGKILL');
        child = null;
      }
      answers.push(answer);
      tell(answer);
    }
    await leave(child);
  };
  await Promise.all(Array.from({ length: Math.min(sites, tasks.length) }, work));
  return answers;
}

const longest = (task: Task): number => TASK_MS + (task.t === 'soak' ? 60_000 * task.minutes : 0);

function ask(child: ChildProcess, task: Task): Promise<Answer> {
  return new Promise((resolve) => {
    const done = (answer: Answer) => {
      clearTimeout(timer);
      child.off('message', onMessage);
      child.off('exit', onExit);
      resolve(answer);
    };
    const onMessage = (message: unknown) => done(message as Answer);
    const onExit = (code: number | null) => done({ task, error: `its process ended with ${code}` });
    const timer = setTimeout(
      () => done({ task, error: `not done in ${longest(task) / 1000} s` }),
      longest(task),
    );
    child.on('message', onMessage);
    child.on('exit', onExit);
    child.send(task);
  });
}

function leave(child: ChildProcess | null): Promise<void> {
  if (child === null || child.exitCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    const timer = setTimeout(() => child.kill('SIGKILL'), 20_000);
    child.on('exit', () => {
      clearTimeout(timer);
      resolve();
    });
    child.disconnect();
  });
}
