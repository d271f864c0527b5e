import type { Folder } from '../../evidence/office/messages.ts';

/** The part of the File System Access API that only a page in a press may use; not in every browser. */
interface Picker {
  showDirectoryPicker?(options: { readonly mode: 'readwrite'; readonly id: string }): Promise<Folder>;
}
interface Asking {
  requestPermission?(of: { readonly mode: 'readwrite' }): Promise<'granted' | 'denied' | 'prompt'>;
}

export const canPick = (): boolean => typeof (globalThis as Picker).showDirectoryPicker === 'function';

/** null: the picker was closed without a choice, which is no error. */
export async function pickFolder(): Promise<Folder | null> {
  try {
    return (await (globalThis as Picker).showDirectoryPicker?.({ mode: 'readwrite', id: 'shared' })) ?? null;
  } catch (cause) {
    if ((cause as { name?: unknown }).name === 'AbortError') return null;
    throw cause;
  }
}

export async function askAgain(folder: Folder): Promise<boolean> {
  const answer = await (folder as Folder & Asking).requestPermission?.({ mode: 'readwrite' });
  return answer === undefined || answer === 'granted';
}
