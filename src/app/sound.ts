import { HARMONICS, PATTERNS, type Sound } from './patterns.ts';

/**
 * Plays the patterns by Web Audio. A browser gives sound only after a press on the page, so `blocked` is shown
 * as a mark until then: an alarm that cannot be heard must be known as such.
 */
export class Sounder {
  private context: AudioContext | null = null;
  private wave: PeriodicWave | null = null;
  private playing: Exclude<Sound, 'cue'> | null = null;
  private mute = true;
  private timer: ReturnType<typeof setTimeout> | null = null;
  private live: OscillatorNode[] = [];

  constructor(
    private readonly volume: () => number,
    private readonly onBlocked: (blocked: boolean) => void,
  ) {}

  /** Called on the first presses and keys of the page. */
  unlock(): void {
    if (typeof AudioContext === 'undefined') {
      this.onBlocked(true);
      return;
    }
    if (this.context === null) {
      this.context = new AudioContext();
      this.context.onstatechange = () => this.tell();
    }
    if (this.context.state !== 'running')
      void this.context.resume().then(
        () => this.tell(),
        () => this.onBlocked(true),
      );
    this.tell();
  }

  private tell(): void {
    const blocked = this.context?.state !== 'running';
    this.onBlocked(blocked);
    const held = this.playing;
    if (this.mute && !blocked && held !== null) {
      // An alarm was waiting for the sound: it does not wait for its next turn as well.
      this.hold(null);
      this.hold(held);
    }
    this.mute = blocked;
  }

  /** The pattern that shall repeat from now on; null is silence. The same again changes nothing. */
  hold(sound: Exclude<Sound, 'cue'> | null): void {
    if (sound === this.playing) return;
    this.playing = sound;
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    this.hush();
    if (sound !== null) this.repeat(sound);
  }

  private repeat(sound: Sound): void {
    this.once(sound);
    const { everyS } = PATTERNS[sound];
    if (everyS !== null) this.timer = setTimeout(() => this.repeat(sound), everyS * 1000);
  }

  private hush(): void {
    for (const node of this.live) {
      try {
        node.stop();
      } catch {
        // Not started or stopped already: silent either way.
      }
    }
    this.live = [];
  }

  /** Plays a pattern once, for the test and the cue. */
  once(sound: Sound): void {
    const context = this.context;
    if (context === null || context.state !== 'running') return;
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
