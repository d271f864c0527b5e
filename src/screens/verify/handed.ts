/** A record file that another page was given, on its way to the page that verifies it. Taken once. */
let handed: File | null = null;

export function handOver(file: File): void {
  handed = file;
}

export function takeHanded(): File | null {
  const file = handed;
  handed = null;
  return file;
}
