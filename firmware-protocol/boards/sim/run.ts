import { buildSimavr } from '../../build.mjs';
import { type HostDevice, startProgram } from '../../host/run.ts';
import { buildBoard } from '../build.mjs';

/** The AVR of boards/ on simavr in real time, its line a pty; options and operations: simavr.c. */
export const startBoard = (options: readonly string[] = []): HostDevice =>
  startProgram(buildSimavr(), [buildBoard('avr').elf, ...options]);
