export function room(file: string): string | null;
export function checkImports(files: readonly string[], read: (file: string) => string): string[];
