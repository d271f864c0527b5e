import type { CannotTellReason, LeakFigure, LeakVerdict } from '../../watch/events.ts';
import type { CureView, HoldView } from '../../watch/view.ts';
import { type Format, METRIC } from '../create-format.ts';
import { boundUp } from '../said/figures.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: Record<LeakVerdict, string> = {
  leaking: 'Fuite',
  tight: 'Aucune fuite vue',
  'cannot-tell': 'Ne peut être dit',
  'cannot-be-seen': 'Ne peut être vue',
};

const CANNOT_TELL: Record<CannotTellReason, string> = {
  tap: 'le capteur ne lit pas la pression du packer',
  line: 'la ligne est alimentée : le détendeur compense une fuite',
  'too-short': 'la ligne n’est pas fermée et stable depuis assez longtemps',
  'temperature-trend': 'tendance de la température de l’air pas assez connue',
  'sensor-warmth':
    'la chaleur propre du capteur de pression peut en faire bouger la mesure autant : le garder à l’abri du soleil et du vent',
  'not-gas': 'avec de l’eau ou de la vapeur dans le packer, la pression ne suit pas la loi des gaz',
  settling: 'l’air refroidit encore, le caoutchouc se détend encore',
  'no-pressure': 'il n’y a pas de mesure de pression utilisable',
};

const CURE_SOURCE: Record<CureView['source'], string> = {
  sleeve: 'par la sonde à la manchette',
  'air-model': 'par l’air dans le packer et le sol, pris du côté froid',
  pipe: 'par la sonde à la paroi',
  ground: 'par la température du sol prévue',
  none: 'aucune température pour compter',
};

/** A figure and its interval, each as it reads. */
export interface Ends {
  readonly value: string;
  readonly low: string;
  readonly high: string;
}

/** Ends that read the same are no range. */
const ends = ({ low, high }: Ends): string => (low === high ? '' : ` (${low} à ${high})`);

/**
 * Words about the cure claim what can be known: the data sheet's time at the coldest likely spot, by a cautious
 * count. They never say that the resin is hard or that anything may be opened.
 */
const CURE = {
  name: 'Temps de durcissement (fiche technique)',
  met: 'Temps de durcissement de la fiche technique atteint au point le plus froid probable (compte prudent)',
  notMet: 'Temps de durcissement de la fiche technique non atteint',
  notKnown: 'Temps de durcissement inconnu',
  notJudged: 'Durcissement non jugé : la résine durcit à la lumière',
  noResin: 'Aucune résine sur la fiche : le durcissement n’est pas suivi',
  notStarted: 'Se compte à partir du plaquage',
  notHeld: 'Compte depuis le plaquage ; la fin sera annoncée à partir du maintien',
  willBeMetAt: (clock: Ends, inTime: string): string =>
    `Atteint vers ${clock.value}${ends(clock)}, dans ${inTime}`,
  willBeMetIn: (time: Ends): string => `Atteint dans environ ${time.value}${ends(time)}`,
  exothermAt: (clock: Ends, inTime: string, warmest: Ends): string =>
    `Exothermie (prévue d’après un modèle général de la résine) : au plus chaud vers ${clock.value}${ends(clock)}, dans ${inTime} : ${warmest.value}${ends(warmest)}`,
  exothermIn: (time: Ends, warmest: Ends): string =>
    `Exothermie (prévue d’après un modèle général de la résine) : au plus chaud dans environ ${time.value}${ends(time)} : ${warmest.value}${ends(warmest)}`,
  progress: ({ value, low, high }: Ends): string => `${value} (compte prudent ${low}, au plus ${high}).`,
  progressOver: (low: string): string =>
    `Non atteint : au compte prudent, ${low} du temps de durcissement sont passés. Seul le compte probable a dépassé la fin.`,
  between: (low: string, high: string): string => `${low} à ${high}`,
};

export function hold(f: Format) {
  return {
    CURE,

    /** The leak in one line: verdict, figure with its interval, or why there is none. */
    leakText(leak: LeakFigure, units = METRIC): string {
      const word = LEAK_VERDICT[leak.verdict];
      switch (leak.verdict) {
        case 'leaking': {
          const interval =
            leak.low === null || leak.high === null
              ? ''
              : ` (95 % : ${f.pressureRate(leak.low, units)} à ${f.pressureRate(leak.high, units)})`;
          return `${word} ${f.pressureRate(leak.mbarPerMin, units)}${interval}`;
        }
        case 'tight':
          return leak.high === null
            ? word
            : `Aucune fuite au-dessus de ${f.pressureRate(boundUp(leak.high), units)}`;
        case 'cannot-tell':
        case 'cannot-be-seen':
          return leak.reason === null ? word : `${word} : ${CANNOT_TELL[leak.reason]}`;
      }
    },

    /** Warmth to come, with its advice; advice has a floor or says that the floor is unknown. */
    liftText(lift: NonNullable<HoldView['lift']>, units = METRIC): string {
      const { value, low, high } = lift.peakBar;
      const peak = `La chaleur de réaction va faire monter la pression à ${f.pressure(value, units)} (${f.pressureNumber(low, units)} à ${f.pressureNumber(high, units)})`;
      const when = lift.ceilingInS === null ? '' : `, plafond dans ${f.duration(lift.ceilingInS.value)}`;
      if (lift.adviceHighBar === null) return `${peak}${when}`;
      const floor =
        lift.adviceLowBar === null
          ? 'le plancher est inconnu'
          : f.pressureNumber(lift.adviceLowBar, units) === f.pressureNumber(lift.adviceHighBar, units)
            ? 'pas plus bas'
            : `pas sous ${f.pressureNumber(lift.adviceLowBar, units)}`;
      return `${peak}${when} : lâcher jusqu’à ${f.pressure(lift.adviceHighBar, units)}, ${floor}`;
    },

    /** Names a leak as the cause only where a leak was found: a line that is tight falls as its gas cools. */
    bandExitText(exit: NonNullable<HoldView['bandExit']>, verdict: LeakVerdict): string {
      const { value, low, high } = exit.inS;
      const when = `dans ${f.duration(value)} (${f.duration(low)} à ${f.duration(high)})`;
      if (exit.direction === 'up')
        return `Va sortir de la plage de maintien par le haut, par chaleur de réaction, ${when}`;
      if (verdict === 'leaking') return `Va sortir de la plage de maintien par le bas, par fuite, ${when}`;
      const why = verdict === 'tight' ? 'en refroidissant' : 'ainsi';
      return `Si la pression continue à baisser ${why} : sous le plancher ${when}`;
    },

    coldestText(cure: CureView, units = METRIC): string {
      if (cure.coldest === null) return `Point le plus froid probable : ${CURE_SOURCE[cure.source]}`;
      return `Point le plus froid probable ${f.temperature(cure.coldest.value, units)} (${CURE_SOURCE[cure.source]})`;
    },

    /** The same of a whole cure, beside its name. */
    coldestValue(spot: { readonly c: number; readonly source: CureView['source'] }, units = METRIC): string {
      return `${f.temperature(spot.c, units)} (${CURE_SOURCE[spot.source]})`;
    },
  };
}
