import { isSpanStated } from '../sensing/suggest.ts';
import type { Bench } from './bench.ts';
import { judgeDrift, judgeNoise } from './course.ts';
import { type Finding, type FindingOf, found } from './findings.ts';
import { judgeGuard } from './guard-try.ts';
import { SPAN_JUST, SPAN_SHARE, STEP_MBAR, ZERO_SHARE } from './limits.ts';
import { judgeSupply } from './supply-try.ts';
import { judgeClock, judgeLines, judgeLost, judgeRate, judgeRestarts, listenedS } from './traffic.ts';
import { judgeWarm } from './warm-try.ts';

const pressureSetup = ({ intake: { setup, sensing } }: Bench) =>
  setup?.channels.find((c) => c.index === sensing.pressure) ??
  setup?.channels.find((c) => c.role === 'pressure');

function judgeStep(b: Bench): FindingOf<'step'> {
  const ch = pressureSetup(b);
  if (ch === undefined) return found('step', 'no-channel');
  const say = (reason: FindingOf<'step'>['reason'], mbar: number | null) =>
    found('step', reason, mbar, ch.bits, null, ch.index);
  const { plans } = b.intake.sensing;
  const plan = plans[ch.index];
  if (!isSpanStated(ch) || !plan) return say('no-scale', null);
  const mbar = plan.step * 1000;
  return say(mbar <= STEP_MBAR.good ? 'fine' : mbar <= STEP_MBAR.doubtful ? 'coarse' : 'too-coarse', mbar);
}

function judgeZero({ zero, intake }: Bench): FindingOf<'zero'> {
  const channel = intake.sensing.pressure;
  if (zero === null) return found('zero', 'not-taken', null, null, null, channel);
  const { offsetBar, limitBar, reason } = zero;
  const say = (why: FindingOf<'zero'>['reason']) => found('zero', why, offsetBar, limitBar, null, channel);
  switch (reason) {
    case null:
      return say(Math.abs(offsetBar ?? 0) <= ZERO_SHARE * (limitBar ?? 0) ? 'near' : 'far');
    case 'too-far':
      return say('too-far');
    case 'not-still':
      return say('not-still');
    case 'no-reading':
    case 'no-channel':
      return say('no-reading');
    default:
      return reason satisfies never;
  }
}

function judgeSpan(b: Bench): FindingOf<'span'> {
  const { span, intake } = b;
  const channel = intake.sensing.pressure;
  if (span === null) return found('span', 'not-compared', null, null, null, channel);
  const { bar, referenceBar, uBar, uReferenceBar } = span;
  if (bar === null) return found('span', 'not-still', null, null, referenceBar, channel);
  const off = bar - referenceBar;
  const may = Math.hypot(uBar, uReferenceBar);
  const ch = pressureSetup(b);
  const low = ch === undefined || referenceBar < SPAN_SHARE * (ch.rangeHi - ch.rangeLo);
  const reason =
    Math.abs(off) > SPAN_JUST * may
      ? 'differs'
      : Math.abs(off) > may
        ? 'just-off'
        : low
          ? 'too-low'
          : 'agrees';
  return found('span', reason, off, may, referenceBar, channel);
}

/** A verdict a point, in the order in which they are gone through. @param keptHz the rate that the device said it keeps */
export function findings(b: Bench, keptHz: number | null): readonly Finding[] {
  const { traffic, course, supplies, warm, guard, intake } = b;
  const channel = intake.sensing.pressure;
  const s = listenedS(traffic);
  return [
    judgeLines(traffic),
    judgeRate(traffic, keptHz),
    judgeLost(traffic),
    judgeClock(traffic),
    judgeRestarts(traffic),
    judgeStep(b),
    judgeNoise(course, channel),
    judgeDrift(course, channel),
    judgeZero(b),
    judgeSpan(b),
    ...(supplies.length === 0 ? [undefined] : supplies).map((one) => judgeSupply(one, s)),
    ...warm.map(judgeWarm),
    judgeGuard(guard, channel),
  ];
}
