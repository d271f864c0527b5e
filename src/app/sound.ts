import { type AlarmTone, endOf, HARMONICS, PATTERNS, type Sound } from './patterns.ts';

/**
 * Why no sound comes out: `press`, the browser waits for a press on the page; `system`, it was taken away or its clock
 * stands still, so that nothing of what is queued is heard. null: it sounds.
 */
export type SoundBlock = 'press' | 'system' | null;

/** How often the sound is looked after, ms. */
const LOOK_MS = 1000;
/** An order is spoken after the first tone and each so many, and the next tone waits so long for it, s. */
const SPEAK_EVERY = 4;
const SPEECH_S = 2.4;
/** A clock that stood for so many looks one after the other gets a new context, which finds an output that came back. */
const LOOKS_BEFORE_NEW = 5;

/** What goes with a tone and never in its place. */
export interface Beside {
  shake?(sound: Sound): void;
  /** Must not throw, and nothing waits for it. */
  speak?(order: string): void;
  hush?(): void;
  /** Are orders spoken at all? */
  speaks?(): boolean;
}

/**
 * Plays the patterns by Web Audio. A browser gives sound only after a press on the page, and a call, another program or
 * a lost output may take it away again: that is looked after, got back where it can be, and shown until then. An alarm
 * that cannot be heard must be known as such.
 */
export class Sounder {
  private context: AudioContext | null = null;
  private wave: PeriodicWave | null = null;
  private playing: AlarmTone | null = null;
  private order: (() => string | null) | null = null;
  private block: SoundBlock = 'press';
  private timer: ReturnType<typeof setTimeout> | null = null;
  private speech: ReturnType<typeof setTimeout> | null = null;
  private look: ReturnType<typeof setInterval> | null = null;
  private live: OscillatorNode[] = [];
  /** The audio clock at the last look, s, and for how many looks it has stood. */
  private clockS = -1;
  private stood = 0;

  constructor(
    private readonly volume: () => number,
    private readonly onBlock: (block: SoundBlock) => void,
    private readonly beside: Beside = {},
  ) {}

  /** Called on the first presses and keys of the page. */
  unlock(): void {
    if (typeof AudioContext === 'undefined') {
      this.onBlock('system');
      return;
    }
    if (this.context === null) this.open();
    this.wake();
    this.tell();
    this.look ??= setInterval(() => this.lookAfter(), LOOK_MS);
  }

  /** Ends the looking after and what sounds. */
  close(): void {
    if (this.look !== null) clearInterval(this.look);
    this.look = null;
    this.hold(null);
    this.shut();
  }

  private open(): void {
    const context = new AudioContext();
    context.onstatechange = () => this.tell();
    this.context = context;
    this.wave = null;
    this.clockS = context.currentTime;
    this.stood = 0;
  }

  private shut(): void {
    const old = this.context;
    if (old === null) return;
    this.context = null;
    old.onstatechange = null;
    void old.close().catch(() => undefined);
  }

  private wake(): void {
    if (this.context === null || this.context.state === 'running') return;
    void this.context.resume().then(
      () => this.tell(),
      () => this.tell(),
    );
  }

  /** Taken away by the system: asked for again each time. A clock that stands in a running context is silence too. */
  private lookAfter(): void {
    const context = this.context;
    if (context === null) return;
    if (context.state !== 'running') this.wake();
    else {
      this.stood = context.currentTime > this.clockS ? 0 : this.stood + 1;
      this.clockS = context.currentTime;
      if (this.stood > LOOKS_BEFORE_NEW) {
        this.shut();
        this.open();
        this.wake();
        // Not believed before its clock has moved.
        this.stood = 1;
      }
    }
    this.tell();
  }

  private blockNow(): SoundBlock {
    const context = this.context;
    if (context === null || context.state === 'suspended') return 'press';
    return context.state !== 'running' || this.stood > 0 ? 'system' : null;
  }

  private tell(): void {
    const before = this.block;
    this.block = this.blockNow();
    if (this.block !== before) this.onBlock(this.block);
    const held = this.playing;
    if (before !== null && this.block === null && held !== null) {
      // An alarm was waiting for the sound: it does not wait for its next turn as well.
      const order = this.order;
      this.hold(null);
      this.hold(held, order);
    }
  }

  /**
   * The pattern that shall repeat from now on; null is silence. The same again changes nothing.
   * @param order what may be spoken after it, asked for when its time has come
   */
  hold(sound: AlarmTone | null, order: (() => string | null) | null = null): void {
    this.order = order;
    if (sound === this.playing) return;
    this.playing = sound;
    for (const timer of [this.timer, this.speech]) if (timer !== null) clearTimeout(timer);
    this.timer = null;
    this.speech = null;
    this.hush();
    if (sound !== null) this.repeat(sound, 0);
  }

  private repeat(sound: AlarmTone, pass: number): void {
    const { everyS } = PATTERNS[sound];
    const speaks = this.speakAfter(sound, pass);
    if (everyS !== null) {
      const waitS = everyS + (speaks ? SPEECH_S : 0);
      this.timer = setTimeout(() => this.repeat(sound, pass + 1), waitS * 1000);
    }
    try {
      this.once(sound);
    } catch {
      // A sound system that fails in one turn is silent in it, and shown as such until its clock is seen to move.
      this.stood = Math.max(1, this.stood);
      this.tell();
    }
  }

  /** Never alone: where no tone comes out, nothing is spoken either. */
  private speakAfter(sound: AlarmTone, pass: number): boolean {
    const isTurn = pass % SPEAK_EVERY === 0 && (sound === 'urgent' || sound === 'lost' || sound === 'high');
    if (!isTurn || this.block !== null || this.order === null || !(this.beside.speaks?.() ?? false))
      return false;
    this.speech = setTimeout(() => {
      const said = this.order?.() ?? null;
      if (said !== null && this.block === null) this.beside.speak?.(said);
    }, endOf(PATTERNS[sound]) * 1000);
    return true;
  }

  private hush(): void {
    this.beside.hush?.();
    for (const node of this.live) {
      try {
        node.stop();
      } catch {
        // Not started or stopped already: silent either way.
      }
    }
    this.live = [];
  }

  /** Plays a pattern once, for the test and the cue. While nothing comes out nothing is queued: it would all come at once. */
  once(sound: Sound): void {
    this.beside.shake?.(sound);
    const context = this.context;
    if (context === null || this.block !== null) return;
    if (this.wave === null) {
      const imag = Float32Array.from([0, ...HARMONICS]);
      this.wave = context.createPeriodicWave(new Float32Array(imag.length), imag);
    }
    const { pulses, gain } = PATTERNS[sound];
    const start = context.currentTime + 0.01;
    for (const pulse of pulses) {
      const tone = context.createOscillator();
      const level = context.createGain();
      tone.setPeriodicWave(this.wave);
      tone.frequency.value = pulse.hz;
      const from = start + pulse.atS;
      const to = from + pulse.durS;
      // Soft edges: a hard start clicks and hides the pitch.
      level.gain.setValueAtTime(0, from);
      level.gain.linearRampToValueAtTime(gain * this.volume(), from + 0.012);
      level.gain.setValueAtTime(gain * this.volume(), to - 0.03);
      level.gain.linearRampToValueAtTime(0, to);
      tone.connect(level).connect(context.destination);
      tone.start(from);
      tone.stop(to + 0.01);
      tone.onended = () => {
        this.live = this.live.filter((n) => n !== tone);
      };
      this.live.push(tone);
    }
  }
}
