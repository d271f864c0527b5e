/** Whether this page was in use here before: known before the lists are, so that nothing moves when they come. */

const KEY = 'steadybar.in-use';

export function wasInUse(): boolean {
  try {
    return localStorage.getItem(KEY) === 'yes';
  } catch {
    // A browser that keeps nothing for this page: it is told by the lists.
    return false;
  }
}

export function setInUse(inUse: boolean): void {
  try {
    if (inUse) localStorage.setItem(KEY, 'yes');
    else localStorage.removeItem(KEY);
  } catch {
    // As above.
  }
}
