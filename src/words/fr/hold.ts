import type { Format } from '../create-format.ts';
import { type Ends, endsIn, type HoldWords, holdTexts } from '../said/hold.ts';

/** What the hold and the cure show. */

const LEAK_VERDICT: HoldWords['verdict'] = {
  leaking: 'Fuite',
  tight: 'Aucune fuite vue',
  'cannot-tell': 'Ne peut être dit',
  'cannot-be-seen': 'Ne peut être vue',
};

const CANNOT_TELL: HoldWords['cannotTell'] = {
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

const CURE_SOURCE: HoldWords['source'] = {
  sleeve: 'par la sonde à la manchette',
  'air-model': 'par l’air dans le packer et le sol, pris du côté froid',
  pipe: 'par la sonde à la paroi',
  ground: 'par la température du sol prévue',
  none: 'aucune température pour compter',
};

const range: HoldWords['range'] = (low, high) => `${low} à ${high}`;
const ends = endsIn(range);

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

const WORDS: HoldWords = {
  verdict: LEAK_VERDICT,
  cannotTell: CANNOT_TELL,
  source: CURE_SOURCE,
  colon: ' : ',
  range,
  noLeakAbove: (rate) => `Aucune fuite au-dessus de ${rate}`,
  raisesTo: (pressure) => `La chaleur de réaction va faire monter la pression à ${pressure}`,
  ceilingIn: (time) => `plafond dans ${time}`,
  letOutTo: (pressure) => `lâcher jusqu’à ${pressure}`,
  floorUnknown: 'le plancher est inconnu',
  noFurther: 'pas plus bas',
  notUnder: (pressure) => `pas sous ${pressure}`,
  within: (time) => `dans ${time}`,
  leavesUpwards: (when) => `Va sortir de la plage de maintien par le haut, par chaleur de réaction, ${when}`,
  leavesByLeak: (when) => `Va sortir de la plage de maintien par le bas, par fuite, ${when}`,
  fallsOut: (when, cools) =>
    `Si la pression continue à baisser ${cools ? 'en refroidissant' : 'ainsi'} : sous le plancher ${when}`,
  coldest: 'Point le plus froid probable',
};

export const hold = (f: Format) => ({ CURE, ...holdTexts(f, WORDS) });
