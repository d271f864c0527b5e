export const FLAGS: readonly string[];
export const NO_COMPILER: string;
export function compiler(): string | null;
export function buildTest(name: string): string;
export function buildDevice(): string;
export function buildFuzzer(target: 'parser' | 'encoder' | 'device'): string;
export function buildFuzzSlice(target: 'parser' | 'encoder' | 'device'): string;
export function buildLeast(): string;
