export function runC(): { passed: number; failed: number; output: string };
