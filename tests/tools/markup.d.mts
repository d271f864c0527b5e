export function markupFaults(
  files: readonly string[],
  read: (file: string) => string,
  exceptions?: Readonly<Record<string, string>>,
): string[];
