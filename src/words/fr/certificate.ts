import type { JobDocument } from '../../job/job-document.ts';
import type { MapKind } from '../../job/reading-map.ts';
import type { Setup } from '../../job/setup.ts';
import type { Priority } from '../../watch/codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { OCCASIONS } from './occasions.ts';

/**
 * Words of the certificate. They say what the record holds and no more: time and pressure at the sensor, the data
 * sheet's cure time as a lower bound. They promise nothing about the resin or the repair.
 */

const CERTIFICATE = {
  title: 'Certificat de pression et de temps de durcissement',
  practice: {
    title: 'Certificat d’exercice',
    mark: 'EXERCICE',
    what: 'EXERCICE. Enregistré sur le simulateur : il n’y avait ni packer, ni conduite, ni résine. Ce n’est pas l’enregistrement d’un chantier et il ne prouve aucune réparation.',
    trainee: 'Stagiaire',
    trainer: 'Vu par le formateur',
  },
  lead: 'Fait par Steadybar à partir d’un seul enregistrement scellé et de rien d’autre. Dates et heures sont en UTC à l’horloge de l’ordinateur ; le temps de session compte à partir de la première mesure.',
  /** @param run the run's own number */
  record: (run: string) => `Enregistrement ${run}`,
  pageOf: (n: number, of: number) => `page ${n} sur ${of}`,
  noException: 'Réserves : aucune que l’enregistrement connaisse.',
  exceptionsAre: (n: number) => (n === 1 ? '1 réserve :' : `${n} réserves, la plus lourde d’abord :`),
  allOnNext: (n: number) => `et ${n} de plus page 2`,
  peakRated: (rated: string) => `pic, admissible ${rated}`,
  peakOnly: 'pic, aucune limite fixée',
  lowestFloor: (floor: string) => `le plus bas du maintien, plancher ${floor}`,
  lowestOnly: 'le plus bas du maintien, plancher inconnu',
  leakMost: 'fuite au plus, chaleur déduite',
  leakOf: 'fuite, chaleur déduite',
  leakNone: 'fuite : ne peut être dite',
  most: (rate: string) => `≤ ${rate}`,
  coldestShort: 'point le plus froid probable',
  batchesOf: 'Résine, lots',
  waterAbove: 'Nappe au-dessus du radier',
  groundAt: 'Sol ou conduite',
  sensorU: (sensor: string, u: string) => `${sensor}, ± ${u}`,
  calibrated: 'Étalonné',
  gaugeAtSeat: 'Manomètre et capteur, au plaquage',
  witness: 'Échantillon témoin',
  cup: 'Gobelet témoin',
  metres: (m: string) => `${m} m`,
  doesNotShort:
    'quelle conduite a été réparée, où était le capteur, que l’horloge de l’ordinateur était juste, la résistance de la résine, si quelqu’un a réceptionné le chantier. Les corrections sont dans le fichier d’enregistrement. Page 3 : davantage, et comment vérifier sans se fier à l’expéditeur.',
  added: (n: number) =>
    n === 1 ? 'Signé après le scellement, 1 ajout :' : `Signé après le scellement, ${n} ajouts, le dernier :`,
  decided: {
    released: (by: string, when: string) => `Approuvé par ${by}, ${when}.`,
    rejected: (by: string, when: string) => `Refusé par ${by}, ${when}.`,
  },
  because: (reason: string) => `Motif : « ${reason} ».`,
  decisionNote: 'Cette décision est donnée par qui a imprimé ceci ; aucun sceau ne la couvre.',
  utcTime: (time: string) => `${time} UTC`,
  runTime: (time: string) => `temps de session ${time}`,
  /** @param length of the run */
  runLong: (length: string) => `session de ${length}`,
  siteNot: 'lieu non indiqué',
  pipeNot: 'conduite non indiquée',
  fingerprintLabel: 'Empreinte de l’enregistrement (SHA-256 de son manifeste signé)',
  details: 'Détails de l’enregistrement',
  repair: 'Ce qui a été réparé',
  how: 'Comment',
  held: 'Ce que montre l’enregistrement',
  trace: 'Pression et températures de la session',
  traceNote:
    'Pression de la ligne au capteur (pression relative) et températures aux sondes, avec les limites en vigueur. Les colonnes grises sont des temps sans mesures ; les repères du haut sont des alarmes.',
  exceptions: 'Réserves',
  noExceptions: 'Aucune que l’enregistrement connaisse.',
  moreExceptions: (n: number) => `et ${n} de plus dans l’enregistrement`,
  doesNot: 'Ce que cette page ne prouve pas',
  doesNotText:
    'Le sceau montre que le détenteur de la clé de signature a signé exactement cet enregistrement, et que rien n’y a été changé depuis. Il ne montre ni quelle conduite a été réparée ni que le tracé est celui de cette réparation : qui tient l’ordinateur peut ouvrir une session sur n’importe quelle ligne d’air. Il ne montre pas où étaient le capteur de pression ou les sondes, que l’horloge de l’ordinateur était juste, ni que les entrées de la fiche de chantier sont vraies ; des personnes les ont saisies. Le temps de durcissement est celui de la fiche technique aux températures lues ou supposées ; que la résine soit dure, l’échantillon témoin et l’inspection le disent, pas cette page. Les corrections signées après le scellement sont dans le fichier d’enregistrement, pas ici.',
  check: 'Comment vérifier',
  checkText:
    'Demander le fichier d’enregistrement (.steadybar.zip). CHECK.txt y dit comment faire à la main, avec openssl et sha256sum et rien de Steadybar ; qui a le programme peut aussi ouvrir le fichier sous « Vérifier un fichier ». Le code contient le SHA-256 du manifest.json du fichier, le même qu’ici :',
  key: 'Signé avec la clé (la comparer avec la liste de clés que l’entreprise vous a donnée) :',
  made: (run: string, software: string, engine: string, sealed: string, sealedBy: string) =>
    `Session ${run} ; enregistrée par ${software}, moteur ${engine} ; scellée ${sealed} par ${sealedBy}.`,
  codeOpens: (page: string) =>
    `Il ouvre la page de vérification à ${page} avec cette empreinte remplie ; que ce soit la page de l’entreprise, l’entreprise le dit.`,
  when: 'Qui borne quand il a été fait',
  noWitness:
    'Aucun contresignataire n’avait vu le journal de l’ordinateur quand cette page a été faite : ses heures sont la parole de l’horloge de l’ordinateur.',
  openedAfter: (when: string, key: string) =>
    `Ouvert après ${when} : ce que le contresignataire à la clé ${key} a signé alors était dans le journal avant.`,
  sealedBefore: (when: string, key: string) =>
    `Scellé avant ${when} : le contresignataire à la clé ${key} a signé alors le journal, avec cet enregistrement dedans.`,
  stampedBefore: (when: string) =>
    `Scellé avant ${when} : un horodatage (RFC 3161) du journal le dit ; openssl ts -verify le contrôle.`,
  qrLabel: 'Code QR avec l’empreinte du manifeste',
  signatures: 'Signatures',
  signCrew: 'Pour l’équipe',
  signFirm: 'Pour l’entreprise',
  signClient: 'Vu par le client',
  signLine: 'Nom, date, signature',
  signedBy: (name: string, when: string) => `${name}, ${when}, à la main sur l’écran de l’ordinateur`,
  present: 'Équipe du jour',
  atComputer: (names: string, list: string) =>
    names === '' ? `À l’ordinateur : ${list}` : `${names} ; à l’ordinateur : ${list}`,
  checklist: 'Liste de contrôle',
  checklistOf: (list: string) =>
    `${list}, telle que le chantier l’a gardée à son ouverture. Les réponses sont la parole de l’équipe ; celles données pendant la session sont dans son enregistrement.`,
  checkItem: 'Point',
  checkAnswer: 'Réponse',
  checkWhen: 'Quand',
  checkBy: 'Qui',
  checkDone: 'oui',
  checkOpen: 'sans réponse',
  checkSafety: (item: string) => `${item} (sécurité)`,
  photos: 'Photographies',
  photosNote:
    'Telles que scellées avec l’enregistrement ; dans son fichier elles sont plus grandes. Le sceau montre qu’elles n’ont pas été échangées depuis, pas ce qu’elles représentent.',
  photoOf: (n: number, what: string) => `${n} ${what}`,
  photoTaken: {
    camera: (when: string) => `prise ${when} à l’horloge de l’ordinateur`,
    file: (when: string) => `un fichier daté ${when}`,
  },
  photoOriginal: 'l’original est dans le fichier d’enregistrement',
  photoMissing: 'Cette photographie n’était pas là quand cette page a été faite.',
  photosMore: (n: number) =>
    n === 1
      ? 'Une de plus est dans le fichier d’enregistrement.'
      : `${n} de plus sont dans le fichier d’enregistrement.`,
  occasions: OCCASIONS,
  notKnown: 'inconnu',
  notStated: 'non indiqué',

  // rows
  site: 'Lieu',
  client: 'Client',
  reference: 'Référence',
  defect: 'Défaut',
  pipe: 'Conduite',
  chainage: (metres: string) => `à ${metres} m du regard de départ`,
  long: (mm: string) => `longueur ${mm} mm`,
  dn: (dn: number) => `DN ${dn}`,
  inner: (mm: string) => `diamètre intérieur ${mm} mm`,
  crew: 'Équipe',
  date: 'Enregistré',
  fromTo: (from: string, to: string) => `${from} à ${to}`,
  utc: (date: string, time: string) => `${date} ${time} UTC`,
  packer: 'Packer',
  serial: (serial: string) => `n° de série ${serial}`,
  rated: 'Pression admissible',
  ratedHere: (pressure: string) => `${pressure} à ce diamètre`,
  resin: 'Résine',
  batch: (resin: string) => `lot ${resin}`,
  batches: (resin: string, hardener: string) => `lots ${resin} et ${hardener}`,
  mixedAt: (temperature: string) => `mélangée à ${temperature}`,
  warmed: 'Packer chauffé',
  warmedTo: (temperature: string) => `à ${temperature}`,
  sleeve: 'Manchette',
  layers: (n: number) => (n === 1 ? '1 couche' : `${n} couches`),
  overlap: (mm: string) => `${mm} mm au-delà de chaque bout du défaut`,
  line: 'Ligne d’air',
  wetLine: 'avec de l’eau dedans',
  onLine: 'ligne d’air',
  tap: 'Capteur à',
  channel: (n: number) => `voie ${n}`,
  type: (letter: string) => `type ${letter}`,
  sensors: 'Capteurs',
  sensor: 'Capteur',
  place: 'Position',
  calibration: 'Étalonnage',
  against: (reference: string) => `contre ${reference}`,
  notCalibrated: 'non étalonné',
  asTyped: 'Les entrées de la fiche de chantier sont telles que l’équipe les a saisies.',

  working: 'Pression de travail',
  airTest: 'Essai à l’air',
  airTestNone: 'prévu, pas fait',
  outlet: 'Arrivée à la sortie du détendeur, avant le gonflage',
  held_: 'Pression maintenue',
  band: 'Plage de maintien',
  bandUpTo: (ceiling: string) => `plancher inconnu, jusqu’à ${ceiling}`,
  bandOf: (floor: string, ceiling: string) => `${floor} à ${ceiling}`,
  bandSeen: (floor: string, ceiling: string) =>
    `${floor} à ${ceiling} (plancher d’après ce qu’a montré le gonflage)`,
  leak: 'Fuite',
  peak: 'Pic de la session',
  peakU: (peak: string, u: string) => `${peak} ± ${u} (k = 2)`,
  cure: 'Temps de durcissement (fiche technique)',
  coldest: 'Point le plus froid probable du durcissement',
  noHold: 'Aucun maintien n’a été enregistré.',
  holdNumber: (n: number, held: string) => `Maintien ${n} : ${held}`,
};

/** How wet the defect was, beside what it is. */
const INFILTRATED: Record<JobDocument['defect']['infiltration'], string> = {
  'not-looked': 'infiltration pas regardée',
  none: 'aucune infiltration vue',
  damp: 'infiltration : humide',
  dripping: 'infiltration : goutte à goutte',
  running: 'infiltration : écoulement',
};

/** What warmed the packer from outside while the sleeve cured. */
const WARMED_BY: Record<JobDocument['heating']['by'], string> = {
  unknown: 'non indiqué',
  none: 'non',
  'hot-air': 'à l’air chaud',
  water: 'à l’eau chaude',
  steam: 'à la vapeur',
};

/** Of what the pipe is, beside its size; what is not known is not stated. */
const PIPE_OF: Record<Exclude<JobDocument['pipe']['material'], 'unknown'>, string> = {
  clay: 'grès',
  concrete: 'béton',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'fonte',
  grp: 'PRV',
};

const HOW_FED: Record<Setup['line'], string> = {
  closed: 'vanne fermée',
  'supplied-relieving': 'alimentée, détendeur à décharge',
  'supplied-nonrelieving': 'alimentée, détendeur sans décharge',
  unknown: 'inconnue',
};

const ALARM: Record<Priority, string> = {
  urgent: 'Alarme urgente',
  high: 'Alarme haute',
  low: 'Alarme basse',
};

export function certificate(f: Format) {
  const CURE_LINE = {
    met: 'atteint au point le plus froid probable (compte prudent)',
    metAfter: (s: number) => `${f.duration(s)} après le début du compte`,
    /** @param c coldest that it may have been */
    sinceMixing: (minutes: number, c: number) =>
      `${f.duration(minutes * 60)} avant le plaquage comptés depuis le mélange, à ${f.quantity('temperature', c, METRIC, 1)} ou plus`,
    metThen: (s: number) => `le maintien a duré encore ${f.duration(s)}`,
    notMet: (s: number) =>
      `non atteint dans cet enregistrement (compte prudent) ; ${f.duration(s)} ont été comptés`,
    light: 'non jugé : la résine durcit à la lumière',
    noResin: 'non suivi : pas de résine avec ses temps sur la fiche de chantier',
    notStarted: 'n’a pas commencé à compter',
  };

  const heldText = (
    bandS: number,
    holdS: number,
    low: number | null,
    high: number | null,
    uBar: number | null,
    floorKnown: boolean,
  ): string => {
    const bounds =
      low === null || high === null
        ? 'pas de pression utilisable'
        : `${f.pressure(low)} à ${f.pressure(high)}${uBar === null ? '' : `, chacune ± ${f.pressure(uBar)} (k = 2)`}`;
    const where = floorKnown ? 'dans la plage de maintien' : 'gonflé et pas au-dessus du plafond';
    return `${f.duration(bandS)} ${where}, sur ${f.duration(holdS)} ; ${bounds}`;
  };

  /** Every exception in plain words. */
  const EXCEPTION = {
    interrupted:
      'La session n’a pas été close par l’équipe : elle a été trouvée ouverte et close comme interrompue.',
    resumed: (n: number, s: number) =>
      `L’enregistrement s’est interrompu et a été repris (${n} fois) ; ${f.duration(s)} manquent.`,
    damage: (n: number) =>
      n === 1
        ? '1 bloc de l’enregistrement était abîmé sur l’ordinateur avant le scellement.'
        : `${n} blocs de l’enregistrement étaient abîmés sur l’ordinateur avant le scellement.`,
    noJob:
      'Aucune fiche de chantier n’appartient à cet enregistrement : lieu, packer, résine et capteurs sont inconnus.',
    noPacker: 'Le packer est inconnu.',
    noLimit: 'Aucune limite n’était fixée : rien n’avertissait de la pression admissible du packer.',
    noMargin: (reason: string) =>
      `La pression de travail était la pression admissible, sans marge. Motif donné : ${reason}`,
    overRated: (bar: number) => `La mesure a dépassé la pression admissible : ${f.pressure(bar)}.`,
    overCeiling: (bar: number) => `La mesure a dépassé le plafond : ${f.pressure(bar)}.`,
    noFloor: 'Le plancher est inconnu : rien ne dit si la pression est passée dessous.',
    floorSeen: 'La pression de gonflage libre du packer était inconnue et a été tirée du gonflage.',
    noWater: 'La nappe au-dessus de la conduite est inconnue.',
    noFree: 'La pression de gonflage libre propre au packer est inconnue.',
    tap: 'Le capteur ne lisait pas la pression même du packer (ou on ne le sait pas) : maintien et fuite n’ont pu être jugés.',
    tapHose:
      'Le capteur était dans le flexible : tant que l’air passait, sa mesure n’était pas la pression du packer.',
    lineUnknown: 'On ne sait pas comment le packer était alimenté : une fuite ne pouvait être dite.',
    lineSupplied: 'La ligne était alimentée pendant le maintien : une fuite ne pouvait se voir.',
    supplyWentOn:
      'Le packer a été gonflé d’une arrivée que l’épreuve avait montrée trop forte, ou montant lentement.',
    supplyVoid: (why: string) => `L’épreuve de l’arrivée d’air ne valait plus : ${why}.`,
    noZero: 'Le zéro du capteur de pression n’a pas été fait raccord ouvert.',
    noSecondZero: 'Le zéro du deuxième capteur de pression n’a pas été fait.',
    noGauge: 'Le manomètre n’a pas été comparé avec le capteur.',
    gaugeDiffers: (gauge: number, reading: number | null) =>
      `Manomètre et capteur divergeaient : ${f.pressure(gauge)} et ${reading === null ? 'pas de mesure' : f.pressure(reading)}.`,
    probeUnchecked: (place: string) => `La sonde (${place}) n’a pas été comparée avec un thermomètre.`,
    probeDiffers: (place: string) => `La sonde (${place}) et le thermomètre divergeaient.`,
    readBy: {
      registers:
        'Les mesures sont venues d’un bus par une table de registres : leurs heures sont celles de cet ordinateur, et aucun boîtier ne gardait une limite propre.',
      columns:
        'Ligne non contrôlée : les mesures sont venues en texte sans contrôle, si bien qu’une mesure perturbée peut sembler juste ; leurs heures sont celles de cet ordinateur, et aucun boîtier ne gardait une limite propre.',
    } satisfies Record<MapKind, string>,
    besideDevice: (id: string) =>
      `Des températures sont venues d’un deuxième adaptateur (${id}), à l’heure de cet ordinateur.`,
    besideBy: {
      registers: (id: string) =>
        `Des températures sont venues d’un deuxième adaptateur (${id}), d’un bus par une table de registres, à l’heure de cet ordinateur.`,
      columns: (id: string) =>
        `Des températures sont venues d’un deuxième adaptateur (${id}) par une ligne non contrôlée : une mesure perturbée peut sembler juste ; leurs heures sont celles de cet ordinateur.`,
    } satisfies Record<MapKind, (id: string) => string>,
    besideGap: (n: number, s: number) =>
      `Les températures du deuxième adaptateur manquent ${n === 1 ? 'une fois' : `${n} fois`}, ${f.duration(s)} en tout.`,
    besideGone: (at: string) => `Les températures du deuxième adaptateur manquent à partir de ${at}.`,
    noProbe: 'Aucune température n’a été mesurée.',
    noSleeveProbe:
      'Pas de sonde à la manchette : le durcissement a été compté par d’autres sondes ou par la température du sol prévue.',
    uncalibrated: (what: string) => `Non étalonné : ${what}.`,
    pressureSensor: 'le capteur de pression',
    secondPressure: 'le deuxième capteur de pression',
    probe: (place: string) => `la sonde (${place})`,
    unnamedPlace: 'position non nommée',
    sharedLine:
      'Deux packers étaient sur cette ligne : les mesures sont au mieux celles de l’un, et la fuite de l’un ou l’autre ne se distingue pas.',
    lightCured:
      'Le durcissement n’a pas été jugé : la résine durcit à la lumière, dont temps et température ne disent rien.',
    heatingUnknown:
      'Il n’est pas indiqué si le packer était chauffé de l’extérieur : le durcissement a été compté comme s’il l’était.',
    noMixed: 'L’heure du mélange n’a pas été saisie.',
    noBatch: 'Le lot de résine ou de durcisseur n’est pas noté.',
    cup: (said: string) => `${said}.`,
    witnessNone: 'Aucun échantillon témoin n’a été enregistré.',
    witnessSoft: 'L’échantillon témoin a été enregistré comme pas dur.',
    witnessWarm: 'L’échantillon témoin n’était pas gardé à la température de la conduite.',
    reboundNone: 'Il n’a pas été enregistré que la ligne reste à zéro, purge fermée, après le dégonflage.',
    airTestFailed: 'L’essai à l’air de la réparation a échoué.',
    airTestUnsaid: (why: string) => `L’essai à l’air ne dit rien de la réparation : ${why}.`,
    airTestNone: 'Un essai à l’air de la réparation était prévu et n’a pas été fait.',
    airTestEarlier: (what: string) => `Avant : ${what}`,
    reboundBack: 'Après le dégonflage, la pression est revenue, purge fermée.',
    noHold: 'Aucun maintien n’a été enregistré.',
    notHeld: (s: number) =>
      `La pression était hors de la plage de maintien pendant ${f.duration(s)} du maintien.`,
    attempts: (n: number) => `${n} tentatives ont été faites.`,
    abandoned: 'Une tentative a été abandonnée.',
    byData: 'Des étapes ont été lues dans les mesures, pas saisies par l’équipe.',
    topUps: (n: number) => `La ligne fermée a été complétée ou ouverte ${n} fois pendant le maintien.`,
    loss: 'L’équipe a répondu que de la pression était perdue.',
    override: (what: string, reason: string) => `Poursuivi malgré l’avis (${what}) : ${reason}`,
    setupRefused: 'Une modification de la fiche de chantier pendant la session a été refusée.',
    gap: (reason: string, n: number, s: number) =>
      `Mesures manquantes : ${reason} (${n} ${n === 1 ? 'lacune' : 'lacunes'}, ${f.duration(s)} en tout).`,
    alarm: (priority: Priority, title: string, n: number, at: string) =>
      `${ALARM[priority]} : ${title}, ${n === 1 ? `au temps de session ${at}` : `${n} fois, d’abord au temps de session ${at}`}.`,
    note: (at: string, text: string) => `Note au temps de session ${at} : ${text}`,
    checkPassed: (item: string, reason: string, by: string) =>
      `Poursuivi sans un point de sécurité${by === '' ? '' : ` (${by})`} : ${item}. Motif : ${reason}`,
    safetyOpen: (list: string) => `Points de sécurité de la liste restés sans réponse : ${list}.`,
    unticked: (list: string) => `Points de la liste restés sans réponse : ${list}.`,
    keyLost:
      'La clé de signature précédente de l’ordinateur a été perdue ; seule la parole de l’entreprise répond de la présente.',
  };

  return { CERTIFICATE, CURE_LINE, EXCEPTION, HOW_FED, INFILTRATED, PIPE_OF, WARMED_BY, heldText };
}
