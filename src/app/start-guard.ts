/**
 * Stands in index.html itself, before and without every other script (index-page.ts puts it there): where the program
 * does not start, the page says so. A page that only stays blank looks like one that will be there in a moment, and
 * nothing watches the packer meanwhile. Imports nothing, and is translated for browsers older than the program's own.
 */

/** What the guard says, in one language. */
export interface GuardWords {
  readonly title: string;
  /** Nothing is being watched. */
  readonly nothing: string;
  readonly todo: string;
  readonly reload: string;
  /** Before what the browser says of the fault. */
  readonly detail: string;
  /** The fault where the browser says none. */
  readonly late: string;
  /** Before the address of a file that could not be had. */
  readonly missing: string;
}

/** The page sends this event when it stands. */
export const STARTED = 'steadybar-started';

/** An error may be another's (an extension's): the start gets this long to come in spite of it, ms. */
const GRACE_MS = 1500;
/** Without an error too: longer than a slow tablet needs for a start from its cache, ms. */
const LATE_MS = 20_000;

/**
 * @param words by language; the one chosen on this tablet counts, then the browser's, then the first
 * @returns ends the watch, as the event does
 */
export function startGuard(words: Readonly<Record<string, GuardWords>>): () => void {
  let fault: string | null = null;
  let timer = setTimeout(show, LATE_MS);

  function chosen(): GuardWords {
    let kept: unknown;
    try {
      kept = JSON.parse(localStorage.getItem('steadybar.preferences') || '{}').language;
    } catch {
      // Without storage the browser's language counts.
    }
    const tags = [kept, ...(navigator.languages || []), ...Object.keys(words)];
    const found = tags.map((tag) => String(tag).split('-')[0] || '').find((tag) => tag in words);
    return words[found || ''] as GuardWords;
  }

  function note(what: string): void {
    // What went wrong first is what the others follow from.
    if (fault !== null) return;
    fault = what;
    clearTimeout(timer);
    timer = setTimeout(show, GRACE_MS);
  }

  function onError(event: Event): void {
    const source = event.target;
    if (source instanceof HTMLScriptElement) note(`${chosen().missing} ${source.src}`);
    else if ('message' in event) note(String((event as ErrorEvent).message));
  }

  function onRejection(event: PromiseRejectionEvent): void {
    const { reason } = event;
    note(String(reason?.message ?? reason));
  }

  function show(): void {
    const root = document.getElementById('app');
    if (root === null) return;
    const say = chosen();
    const line = (tag: string, style: string, text: string) => {
      const element = document.createElement(tag);
      element.className = style;
      element.textContent = text;
      return element;
    };
    const page = line('div', 'page', '');
    page.setAttribute('role', 'alert');
    page.setAttribute('data-testid', 'start-failed');
    page.style.padding = '16px';
    const reload = line('button', 'button primary', say.reload);
    reload.addEventListener('click', () => location.reload());
    const row = line('div', 'row', '');
    row.append(reload);
    page.append(
      line('h1', '', say.title),
      line('p', 'note strong', say.nothing),
      line('p', '', say.todo),
      row,
      line('p', 'small muted', `${say.detail} ${fault === null ? say.late : fault}`),
    );
    root.textContent = '';
    root.append(page);
  }

  function stop(): void {
    clearTimeout(timer);
    removeEventListener('error', onError, true);
    removeEventListener('unhandledrejection', onRejection);
    removeEventListener(STARTED, stop);
  }

  // Files that could not be had tell their own element alone, on the way down.
  addEventListener('error', onError, true);
  addEventListener('unhandledrejection', onRejection);
  addEventListener(STARTED, stop);
  return stop;
}
