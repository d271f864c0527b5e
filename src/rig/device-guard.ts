/**
 * The simulated device's own limit: rules of the protocol's guard, as the C reference has them. It sounds and
 * flashes and drives no valve. Counts are the pressure channel's raw counts.
 */
import type { DeviceGuardState, ReplyResult } from '../link/frames.ts';

export interface DeviceLimit {
  readonly channel: number;
  readonly counts: number;
  readonly mbar: number;
}

export interface GuardConfig {
  readonly channel: number;
  /** Counts of 0.10 bar: only under it may the limit be raised or taken away. */
  readonly small: number;
  /** Below it the sensor is broken and the pressure unknown. */
  readonly floor: number;
  readonly deadband: number;
  readonly top: number;
}

const FRESH_S = 1;
const RETURN_S = 1;
const SILENCE_LASTS_S = 120;
/** Under this share of its nominal value the supply is outside any sensor's band. */
const LEAST_SUPPLY = 0.9;

export class DeviceGuard {
  state: DeviceGuardState = 'unarmed';
  limit: DeviceLimit | null = null;
  trips = 0;
  returns = 0;
  tripCounts = 0;
  counts: number | null = null;
  private effective = 0;
  private supply = 1;
  private countsS = 0;
  private belowSinceS: number | null = null;
  private silencedS = 0;
  private readonly config: GuardConfig;

  constructor(config: GuardConfig) {
    this.config = config;
  }

  /** A conversion of the guarded channel. */
  step(nowS: number, counts: number): void {
    this.counts = counts;
    this.countsS = nowS;
    if (this.state === 'unarmed') return;
    if (counts >= this.effective) {
      this.belowSinceS = null;
      const again = this.state === 'silenced' && nowS - this.silencedS >= SILENCE_LASTS_S;
      if (this.state === 'armed' || again) {
        this.state = 'tripped';
        this.tripCounts = counts;
        this.trips++;
      }
      return;
    }
    const back = counts <= this.effective - this.config.deadband && counts >= this.config.floor;
    if (this.state === 'armed' || !back) {
      this.belowSinceS = null;
      return;
    }
    if (this.belowSinceS === null) this.belowSinceS = nowS;
    else if (nowS - this.belowSinceS >= RETURN_S) {
      this.belowSinceS = null;
      this.state = 'armed';
      this.returns++;
    }
  }

  /** Supply over its nominal value: a ratiometric sensor reads low with it, so the limit in counts falls too. */
  follow(ratio: number): void {
    this.supply = ratio < LEAST_SUPPLY ? 0 : Math.min(1, ratio);
    if (this.limit !== null) this.effective = this.corrected(this.limit.counts);
  }

  get supplyLow(): boolean {
    return this.supply === 0;
  }

  private corrected(counts: number): number {
    const share = this.supply === 0 ? LEAST_SUPPLY : this.supply;
    return counts <= 0 ? counts : Math.floor(counts * share);
  }

  /** Known from a fresh, believable conversion to be under the small pressure. */
  private isSmall(nowS: number): boolean {
    return (
      this.counts !== null &&
      nowS - this.countsS <= FRESH_S &&
      this.supply !== 0 &&
      this.counts >= this.config.floor &&
      this.counts < this.corrected(this.config.small)
    );
  }

  set(nowS: number, limit: DeviceLimit): ReplyResult {
    const { channel, small, top } = this.config;
    if (limit.channel !== channel || limit.counts > top || limit.counts <= small) return 'range';
    const raises = this.limit !== null && (limit.counts > this.limit.counts || limit.mbar > this.limit.mbar);
    if (this.state !== 'unarmed' && raises && !this.isSmall(nowS)) return 'refused';
    this.restore(limit, this.state === 'unarmed');
    return 'ok';
  }

  /** A limit found in non-volatile memory at the start. */
  restore(limit: DeviceLimit, arm = true): void {
    this.limit = limit;
    this.effective = this.corrected(limit.counts);
    if (arm) this.state = 'armed';
  }

  disarm(nowS: number): ReplyResult {
    if (this.state === 'unarmed') return 'ok';
    if (!this.isSmall(nowS)) return 'refused';
    this.state = 'unarmed';
    this.limit = null;
    return 'ok';
  }

  silence(nowS: number): void {
    if (this.state !== 'tripped') return;
    this.state = 'silenced';
    this.silencedS = nowS;
  }
}
