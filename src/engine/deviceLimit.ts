import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { LimitAnswer } from '../link/limit.ts';
import type { Session } from '../link/session.ts';

/**
 * The raw counts at which the channel reads `bar` (gauge), by the setup's own scale and calibration, rounded to
 * the side of less pressure: the device's limit must never lie above the one meant. null where the scale is
 * degenerate. A ratiometric channel is taken at its nominal supply.
 */
export function countsAt(channel: ChannelSetup, bar: number, airBar: number): number | null {
  const { calibration } = channel;
  const gauge = channel.gaugeKind === 'absolute' ? bar + airBar : bar;
  const indicated = calibration === null ? gauge : (gauge - calibration.offset) / calibration.gain;
  const spanBar = channel.rangeHi - channel.rangeLo;
  const spanEl = channel.spanElHi - channel.spanElLo;
  const perEl = (channel.rawHi - channel.rawLo) / (channel.elHi - channel.elLo);
  const el = channel.spanElLo + ((indicated - channel.rangeLo) / spanBar) * spanEl;
  const raw = channel.rawLo + (el - channel.elLo) * perEl;
  if (!Number.isFinite(raw)) return null;
  const rising = (spanEl / spanBar) * perEl > 0;
  const counts = rising ? Math.floor(raw) : Math.ceil(raw);
  return Math.abs(counts) <= 0x7fff_ffff ? counts : null;
}

/** Arms or lowers the device's own limit on the setup's pressure channel. Never rejects. */
export async function armLimit(session: Session, setup: Setup, mbar: number): Promise<LimitAnswer> {
  const channel = setup.channels.find((c) => c.role === 'pressure');
  const counts = channel === undefined ? null : countsAt(channel, mbar / 1000, setup.air.bar);
  if (channel === undefined || counts === null || mbar < 1) return { kept: false, counts: null, mbar: null };
  return session.limit(channel.index, counts, mbar);
}
