import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { buildDevice } from '../build.mjs';

/** The device on a pty as a child process, for tests. Operations: host/README.md. */
export interface HostDevice {
  /** Sends one operation and gives its one line of answer; rejects when the device has ended. */
  op(line: string): Promise<string>;
  /** The same, as name=value pairs of `state`. */
  state(): Promise<Record<string, string>>;
  /** Settles when the process has ended. */
  quit(): Promise<void>;
  readonly pid: number;
}

/** Counts of its pressure channel at nominal supply: 0.5-4.5 V for 0-6 bar at 125 µV a count. */
export const countsAtBar = (bar: number): number => Math.round(4000 + (bar * 32_000) / 6);

/** Builds the device if need be and starts it with these command-line options. */
export const startDevice = (options: readonly string[] = []): HostDevice =>
  startProgram(buildDevice(), options);

/** A program that takes operations on stdin and answers each by a line. */
export function startProgram(program: string, options: readonly string[]): HostDevice {
  const child = spawn(program, options, { stdio: ['pipe', 'pipe', 'inherit'] });
  const waiting: { resolve(line: string): void; reject(error: Error): void }[] = [];
  let ended = false;
  const end = new Promise<void>((resolve) => {
    child.once('exit', () => {
      ended = true;
      for (const w of waiting.splice(0)) w.reject(new Error('the device has ended'));
      resolve();
    });
  });
  createInterface({ input: child.stdout }).on('line', (line) => waiting.shift()?.resolve(line));
  child.stdin.on('error', () => undefined);
  const op = (line: string) =>
    new Promise<string>((resolve, reject) => {
      if (ended) {
        reject(new Error('the device has ended'));
        return;
      }
      waiting.push({ resolve, reject });
      child.stdin.write(`${line}\n`);
    });
  return {
    op,
    async state() {
      const words = (await op('state')).split(' ').slice(1);
      return Object.fromEntries(words.map((w) => w.split('=') as [string, string]));
    },
    async quit() {
      child.stdin.end();
      await end;
    },
    pid: child.pid ?? 0,
  };
}
