/** A stand-in for the platform's audio that counts what is asked of it. Its clock is the (mocked) clock of the test. */
export class Tones {
  static started: number[] = [];
  static stopped = 0;
  static state = 'running';
  static resumes = 0;
  static made = 0;
  static closed = 0;
  /** The clock of every context stands. */
  static stands = false;
  static fails = false;

  static reset(): void {
    Tones.started = [];
    Tones.stopped = 0;
    Tones.state = 'running';
    Tones.resumes = 0;
    Tones.made = 0;
    Tones.closed = 0;
    Tones.stands = false;
    Tones.fails = false;
  }

  private readonly madeMs = Date.now();
  private seenS = 0;
  readonly destination = {};
  onstatechange: (() => void) | null = null;

  constructor() {
    Tones.made++;
  }
  get currentTime() {
    if (!Tones.stands) this.seenS = (Date.now() - this.madeMs) / 1000;
    return this.seenS;
  }
  get state() {
    return Tones.state;
  }
  resume() {
    Tones.resumes++;
    return Promise.resolve();
  }
  close() {
    Tones.closed++;
    return Promise.resolve();
  }
  createPeriodicWave() {
    return {};
  }
  createGain() {
    const gain = { setValueAtTime: () => {}, linearRampToValueAtTime: () => {} };
    return { gain, connect: (to: unknown) => to };
  }
  createOscillator() {
    if (Tones.fails) throw new Error('no device');
    return {
      frequency: { value: 0 },
      setPeriodicWave: () => {},
      connect: (to: unknown) => to,
      start: (at: number) => Tones.started.push(at),
      stop: (at?: number) => {
        if (at === undefined) Tones.stopped++;
      },
    };
  }
}
