export type Table = Record<string, readonly string[]>;
type Read = (file: string) => string;
export function room(file: string): string | null;
export function readTable(markdown: string): { readonly table: Table; readonly faults: readonly string[] };
export function checkImports(files: readonly string[], read: Read, table: Table): string[];
export function unusedPermissions(files: readonly string[], read: Read, table: Table): string[];
export function importCircles(files: readonly string[], read: Read): string[];
