/** What becomes of the spoken orders: not wanted; a voice is there; none speaks the page's language, or it failed. */
export type SpeechState = 'off' | 'ready' | 'no-voice';

/** The browser's voices; null where it has none at all. */
const voices = (): SpeechSynthesis | null =>
  typeof speechSynthesis === 'undefined' ? null : speechSynthesis;

/**
 * Speaks one short order after a tone, by the browser's own voice. It never stands alone and nothing waits for it: a
 * voice that is missing or fails is told by its state and changes no tone.
 */
export class Speaker {
  private failed = false;
  private readonly heard = () => this.tell();

  /** @param language of the page (RFC 5646) */
  constructor(
    private readonly language: string,
    private readonly wanted: () => boolean,
    private readonly onState: (state: SpeechState) => void,
  ) {
    // Voices come late in some browsers.
    voices()?.addEventListener?.('voiceschanged', this.heard);
  }

  close(): void {
    voices()?.removeEventListener?.('voiceschanged', this.heard);
    this.hush();
  }

  /** One that speaks the page's language; a voice of the tablet itself before one that needs the network. */
  private voice(): SpeechSynthesisVoice | null {
    const tag = this.language.toLowerCase();
    const own = (voices()?.getVoices() ?? []).filter((v) => {
      const lang = v.lang.toLowerCase().replace('_', '-');
      return lang === tag || lang.startsWith(`${tag}-`);
    });
    return own.find((v) => v.localService) ?? own[0] ?? null;
  }

  state(): SpeechState {
    if (!this.wanted()) return 'off';
    return this.failed || this.voice() === null ? 'no-voice' : 'ready';
  }

  /** Looks again, as after a change of the settings. */
  tell(): void {
    this.onState(this.state());
  }

  say(text: string): void {
    const synthesis = voices();
    const voice = this.voice();
    if (synthesis === null || voice === null || !this.wanted()) {
      this.tell();
      return;
    }
    const words = new SpeechSynthesisUtterance(text);
    words.lang = voice.lang;
    words.voice = voice;
    words.onstart = () => this.set(false);
    words.onerror = (event) => {
      // One that is cut off by the next order has not failed.
      if (event.error !== 'interrupted' && event.error !== 'canceled') this.set(true);
    };
    synthesis.cancel();
    synthesis.speak(words);
  }

  private set(failed: boolean): void {
    this.failed = failed;
    this.tell();
  }

  hush(): void {
    voices()?.cancel();
  }
}
