import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { INDEX_WORDS } from '../words/index-page.ts';
import { STARTED, startGuard } from './start-guard.ts';

const EN = INDEX_WORDS.en.guard;
const FR = { ...EN, title: 'Pas de départ' };
let stop: () => void;

beforeEach(() => {
  vi.useFakeTimers();
  document.body.innerHTML = '<div id="app"><p>frame</p></div>';
  localStorage.clear();
  stop = startGuard({ en: EN, fr: FR });
});
afterEach(() => {
  stop();
  vi.useRealTimers();
  vi.restoreAllMocks();
});

const page = () => document.getElementById('app')!;
const alert = () => page().querySelector('[role="alert"]');
const throwAtLoad = (message: string) => dispatchEvent(new ErrorEvent('error', { message }));

describe('start guard', () => {
  it('an error in a start that does not come: what failed, that nothing is watched, what to do', () => {
    throwAtLoad('RangeError: Incorrect locale information provided');
    throwAtLoad('x is not defined');
    expect(alert()).toBeNull();
    vi.advanceTimersByTime(2000);
    expect(page().textContent).not.toContain('frame');
    const text = alert()!.textContent;
    expect(text).toContain(EN.title);
    expect(text).toContain('Nothing is being watched');
    expect(text).toContain(EN.todo);
    expect(text).toContain('Incorrect locale information provided');
    expect(text).not.toContain('x is not defined');
    const button = alert()!.querySelector('button')!;
    expect(button.textContent).toBe(EN.reload);
    const reload = vi.spyOn(location, 'reload').mockImplementation(() => {});
    button.click();
    expect(reload).toHaveBeenCalledOnce();
  });

  it('a promise that fails and a script that is not there count as well', () => {
    const rejected = Object.assign(new Event('unhandledrejection'), {
      reason: new TypeError('no such module'),
    });
    dispatchEvent(rejected);
    vi.advanceTimersByTime(2000);
    expect(alert()!.textContent).toContain('no such module');

    stop();
    stop = startGuard({ en: EN });
    const script = document.createElement('script');
    Object.defineProperty(script, 'src', { value: 'https://example.test/assets/index.js' });
    document.body.append(script);
    script.dispatchEvent(new Event('error'));
    vi.advanceTimersByTime(2000);
    expect(alert()!.textContent).toContain('https://example.test/assets/index.js');
  });

  it('a picture or a style that is not there does not stop the program: nothing is said of it', () => {
    const image = document.createElement('img');
    document.body.append(image);
    image.dispatchEvent(new Event('error'));
    vi.advanceTimersByTime(5000);
    expect(alert()).toBeNull();
  });

  it('a start that comes in spite of an error, or late, is left alone', () => {
    throwAtLoad('of another');
    vi.advanceTimersByTime(1000);
    dispatchEvent(new Event(STARTED));
    throwAtLoad('after the start the program speaks for itself');
    vi.advanceTimersByTime(60_000);
    expect(alert()).toBeNull();
    expect(page().textContent).toBe('frame');
  });

  it('silence is a fault too, once no tablet would take so long', () => {
    vi.advanceTimersByTime(15_000);
    expect(alert()).toBeNull();
    vi.advanceTimersByTime(10_000);
    expect(alert()!.textContent).toContain(EN.late);
  });

  it('speaks the language that was chosen, then the browser’s, then the first', () => {
    const title = () => {
      stop();
      stop = startGuard({ en: EN, fr: FR });
      vi.advanceTimersByTime(30_000);
      return alert()!.querySelector('h1')!.textContent;
    };
    vi.spyOn(navigator, 'languages', 'get').mockReturnValue(['C', 'fr-CA', 'en']);
    expect(title()).toBe(FR.title);
    localStorage.setItem('steadybar.preferences', '{"language":"en"}');
    expect(title()).toBe(EN.title);
    localStorage.setItem('steadybar.preferences', '{"language":"auto"}');
    expect(title()).toBe(FR.title);
    localStorage.setItem('steadybar.preferences', 'not JSON');
    vi.spyOn(navigator, 'languages', 'get').mockReturnValue(['C']);
    expect(title()).toBe(EN.title);
  });
});
