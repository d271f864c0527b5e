/** Offers bytes to be saved under a name, by the browser's own download. */
export function saveBytes(name: string, bytes: Uint8Array<ArrayBuffer> | string): void {
  const url = URL.createObjectURL(new Blob([bytes]));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The download has its own hold on the bytes only after the click was handled.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** As above, for what a worker made. */
export function saveBlob(name: string, blob: Blob): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
