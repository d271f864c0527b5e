/** What a crew sees and hears of the page, noted in the page itself with its time. */

/** Something on the page that came, changed or went. */
export interface Sight {
  /** UTC, ms. */
  readonly tMs: number;
  /** 'alarm-CODE', or the mark of that name. */
  readonly what: string;
  /** State of an alarm, trust of the pressure, empty for a mark; 'gone': it stands no more. */
  readonly state: string;
  readonly priority: string;
  readonly text: string;
}

/** The first pulse of a sound. */
export interface Tone {
  /** UTC at which it is to be heard, ms. */
  readonly tMs: number;
  readonly hz: number;
}

export interface Noted {
  /** The document that it was noted in: another one after each loading of the page. */
  readonly document: number;
  readonly sights: readonly Sight[];
  readonly tones: readonly Tone[];
}

/** What the hook leaves in the page. */
interface Eyes {
  sights: Sight[];
  tones: Tone[];
  contexts: AudioContext[];
  workers: { url: string; worker: Worker }[];
  hide(ofSight: boolean): void;
}

/** Marks beside the alarms, by their test ids. */
const MARKS = [
  'engine-silent',
  'page-fault',
  'page-failed',
  'link-error',
  'sound-blocked',
  'maybe-full',
  'left-open',
  'no-limit',
  'standing-device-unarmed',
  'question',
  'notice',
  'fault-notice',
  'start-failed',
] as const;

export type Mark = (typeof MARKS)[number];

/**
 * Runs in the page before its own scripts: looks at the document whenever it changes, and at every tone that is started.
 * It keeps the page's sound contexts and workers at hand for the faults that take them away.
 */
function lookAndListen(marks: readonly string[]): void {
  const eyes: Eyes = { sights: [], tones: [], contexts: [], workers: [], hide: () => undefined };
  (globalThis as unknown as { eyes: Eyes }).eyes = eyes;
  const nowMs = () => performance.timeOrigin + performance.now();
  const before = new Map<string, string>();

  const look = () => {
    const tMs = nowMs();
    const there = new Set<string>();
    const note = (what: string, state: string, priority: string, text: () => string) => {
      there.add(what);
      // Texts of alarms count on and change all the time; what is wrong with the link is another thing each time.
      const sign = `${state} ${priority} ${what === 'link-error' ? text() : ''}`;
      if (before.get(what) === sign) return;
      before.set(what, sign);
      eyes.sights.push({ tMs, what, state, priority, text: text() });
    };
    for (const el of document.querySelectorAll<HTMLElement>('[data-testid^="alarm-"][data-state]'))
      note(el.dataset.testid!, el.dataset.state!, el.dataset.priority ?? '', () => {
        const words = el.querySelector('.alarm-text') ?? el;
        return (words.textContent ?? '').trim();
      });
    const pressure = document.querySelector<HTMLElement>('[data-testid="pressure"]');
    if (pressure) note('pressure', pressure.dataset.trust ?? '', '', () => pressure.textContent ?? '');
    for (const mark of marks) {
      const el = document.querySelector<HTMLElement>(`[data-testid="${mark}"]`);
      if (el) note(mark, '', '', () => (el.textContent ?? '').trim());
    }
    for (const what of [...before.keys()]) {
      if (there.has(what)) continue;
      before.delete(what);
      eyes.sights.push({ tMs, what, state: 'gone', priority: '', text: '' });
    }
  };
  new MutationObserver(look).observe(document, {
    subtree: true,
    childList: true,
    characterData: true,
    attributes: true,
    attributeFilter: ['data-state', 'data-priority', 'data-trust'],
  });

  // Out of sight a page gets no frames, and its timers at most once a second.
  const out = { ofSight: false, frames: [] as FrameRequestCallback[] };
  const { requestAnimationFrame: frame, setTimeout: later } = globalThis;
  globalThis.requestAnimationFrame = (draw) => (out.ofSight ? -out.frames.push(draw) : frame(draw));
  globalThis.setTimeout = ((work: () => void, ms = 0, ...more: []) =>
    later(work, out.ofSight ? Math.max(1000, ms) : ms, ...more)) as typeof setTimeout;
  Object.defineProperty(document, 'hidden', { get: () => out.ofSight });
  Object.defineProperty(document, 'visibilityState', { get: () => (out.ofSight ? 'hidden' : 'visible') });
  eyes.hide = (ofSight) => {
    out.ofSight = ofSight;
    document.dispatchEvent(new Event('visibilitychange'));
    for (const draw of ofSight ? [] : out.frames.splice(0)) frame(draw);
  };

  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (this: OscillatorNode, when = 0) {
    const { context } = this;
    if (context.state === 'running')
      eyes.tones.push({
        tMs: nowMs() + 1000 * Math.max(0, when - context.currentTime),
        hz: this.frequency.value,
      });
    return start.call(this, when);
  };
  const OwnContext = AudioContext;
  globalThis.AudioContext = class extends OwnContext {
    constructor(options?: AudioContextOptions) {
      super(options);
      eyes.contexts.push(this);
    }
  };
  const OwnWorker = Worker;
  globalThis.Worker = class extends OwnWorker {
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options);
      eyes.workers.push({ url: String(url), worker: this });
    }
  };
}

/** esbuild's helper for names, which functions handed to the page would miss there. */
const NAMES = 'globalThis.__name ??= (f) => f;';

/** Content of a script for every page of a browser. */
export const eyesScript = (): string => `${NAMES}(${lookAndListen})(${JSON.stringify(MARKS)});`;

/** To be evaluated in the page: what was noted from these places of the lists on. */
export function readEyes([sights, tones]: readonly [number, number]): Noted {
  const { eyes } = globalThis as unknown as { eyes: Eyes };
  return {
    document: performance.timeOrigin,
    sights: eyes.sights.slice(sights),
    tones: eyes.tones.slice(tones),
  };
}

/** To be evaluated in the page: the engine's worker is ended, as a browser does that lacks memory. */
export function killEngine(): void {
  const { eyes } = globalThis as unknown as { eyes: Eyes };
  const engine = eyes.workers.find((w) => w.url.includes('engine.worker'));
  if (engine === undefined) throw new Error('no engine worker was started');
  engine.worker.terminate();
}

/** To be evaluated in the page: it is out of sight, or back. The headless browser itself always shows it. */
export function hide(ofSight: boolean): void {
  (globalThis as unknown as { eyes: Eyes }).eyes.hide(ofSight);
}

/** To be evaluated in the page: the system takes the sound away; `forGood`: and does not give it back when asked. */
export async function takeSound(forGood: boolean): Promise<void> {
  const { eyes } = globalThis as unknown as { eyes: Eyes };
  const context = eyes.contexts.at(-1);
  if (context === undefined) throw new Error('the page opened no sound');
  if (forGood) context.resume = () => Promise.reject(new DOMException('taken', 'InvalidStateError'));
  await context.suspend();
}

/** To be evaluated in the page: what takeSound() did is over. */
export async function giveSound(): Promise<void> {
  const { eyes } = globalThis as unknown as { eyes: Eyes };
  for (const context of eyes.contexts) {
    delete (context as { resume?: unknown }).resume;
    if (context.state !== 'closed') await context.resume();
  }
}
