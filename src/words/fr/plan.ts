import type { DerivationCode, PlanNote, WarningCode } from '../../job/plan-codes.ts';
import { METRIC } from '../create-format.ts';
import type { refusals } from './refusals.ts';

/** What a plan says: warnings, and each number with its formula. */

/** `of` is what the warning is about and its numbers, in brackets, or nothing. */
const WARNING: Record<WarningCode, (of: string) => string> = {
  'no-packer': (of) => `Aucun packer n’est choisi : aucune limite, pas d’alerte de surpression${of}.`,
  'no-rating': (of) =>
    `Le packer n’a pas de pression admissible : aucune limite, pas d’alerte de surpression${of}.`,
  'diameter-unknown': (of) =>
    `Le diamètre de la conduite est inconnu : la plus basse admissible du packer est prise${of}.`,
  'diameter-not-measured': (of) => `La taille nominale remplace le diamètre intérieur${of}. Le mesurer.`,
  'plate-says-working': (of) => `La pression de travail de la plaque est prise comme pression maximale${of}.`,
  'working-proposed': (of) => `Aucune pression de travail n’a été saisie : la proposition est prise${of}.`,
  'ceiling-kept': (of) =>
    `Pendant une session le plafond peut être baissé, jamais relevé : celui du début de cette session reste${of}.`,
  'no-margin': (of) =>
    `Travailler à la pression admissible ne laisse aucune marge pour un capteur qui indique trop bas ni pour la chaleur de réaction${of}.`,
  'lift-past-ceiling': (of) => `La chaleur de réaction peut faire dépasser le plafond à la ligne${of}.`,
  'rise-assumed': (of) =>
    `L’échauffement de l’air par le durcissement est supposé par classe d’exothermie${of}.`,
  'heating-unknown': (of) =>
    `Personne n’a dit si le packer est chauffé de l’extérieur : le durcissement se compte comme s’il l’était, et est atteint plus tard${of}. Le dire sur la fiche de chantier.`,
  'heated-to-unknown': (of) =>
    `Le packer est chauffé et personne n’a dit à combien : la hausse par cette chaleur n’est pas dans le plan${of}. La saisir sur la fiche de chantier.`,
  'not-gas': (of) =>
    `Avec de l’eau ou de la vapeur dans le packer, la loi des gaz ne vaut pas : une fuite ne peut être dite et la hausse par la chaleur n’est pas prévue${of}.`,
  'wetness-unknown': (of) =>
    `Personne n’a dit s’il y a de l’eau dans la ligne : la hausse par sa vapeur est comptée${of}. Le dire sur la fiche de chantier.`,
  'two-on-line': (of) =>
    `Deux packers sont sur cette ligne et un seul capteur ne les distingue pas : un seul est vu, et la plus basse admissible est la limite${of}.`,
  'no-relief': (of) =>
    `Aucune soupape de sûreté n’est connue${of}. En monter une, réglée au plus à la pression admissible.`,
  'relief-over-rated': (of) => `La soupape de sûreté est réglée au-dessus de la pression admissible${of}.`,
  'relief-under-working': (of) => `La soupape de sûreté s’ouvre à la pression de travail ou en dessous${of}.`,
  'water-unknown': (of) => `La nappe est inconnue : il n’y a pas de plancher${of}.`,
  'free-inflation-unknown': (of) =>
    `La pression de gonflage libre du packer est inconnue : pas de plancher tant que le gonflage ne la montre pas${of}.`,
  'seat-over-working': (of) =>
    `La pression de plaquage n’est pas sous la pression de travail : aucune pause de plaquage n’est prévue${of}.`,
  'tap-no-hold': (of) => `Capteur ici : alerte de surpression seulement, pas de contrôle de fuite${of}.`,
  'second-left-out': (of) =>
    `Un chantier lit deux pressions, chacune à sa position : cette voie n’est pas lue${of}.`,
  'line-unknown': (of) => `On ne sait pas comment la ligne est alimentée : une fuite ne peut être dite${of}.`,
  'u-large': (of) => `L’incertitude de la mesure dépasse un dixième de la pression admissible${of}.`,
  'u-assumed': (of) => `Rien n’est connu du capteur : une large incertitude est supposée${of}.`,
  'device-not-described': (of) =>
    `Aucun boîtier n’est connecté : les données du capteur viennent à la connexion${of}.`,
  'channel-missing': (of) => `Le boîtier n’a pas cette voie${of}.`,
  'sensor-missing': (of) => `Le document d’un capteur affecté a disparu${of}.`,
  'beside-missing': (of) => `Le deuxième adaptateur ne répond pas, ou n’a pas cette voie${of}.`,
  'beside-pressure': (of) =>
    `Le deuxième adaptateur ne sert qu’aux températures : sa pression n’est pas lue${of}.`,
  'signal-differs': (of) =>
    `Document du capteur et boîtier ne s’accordent pas sur le signal : celui du boîtier est pris${of}.`,
  'span-unknown': (of) =>
    `Personne n’indique quelles tensions sont le début et la fin de l’étendue du capteur : la voie n’est pas lue${of}. Saisir les deux dans le document du capteur et le nommer sur la fiche de chantier.`,
  'calibration-none': (of) => `Le capteur n’a pas d’étalonnage${of}.`,
  'calibration-refused': (of) => `Les points de l’étalonnage n’en font pas un : il ne sert pas${of}.`,
  'calibration-other-device': (of) =>
    `L’étalonnage a été fait sur un autre boîtier ou une autre voie : il ne sert pas${of}.`,
  'calibration-due': (of) => `L’étalonnage a passé sa date${of}.`,
  'sensor-retired': (of) => `Le capteur est réformé${of}.`,
  'zero-refused': (of) => `Au dernier chantier, le zéro du capteur était trop loin pour être fait${of}.`,
  'zero-jumped': (of) =>
    `Le zéro du capteur a bougé au dernier chantier plus qu’aux précédents${of}. Le comparer tôt.`,
  'zero-drifting': (of) =>
    `Le zéro du capteur bouge de chantier en chantier et sera bientôt trop loin pour être fait${of}.`,
  'gauge-differed': (of) => `Au dernier chantier, le capteur ne concordait pas avec le manomètre${of}.`,
  'gauge-drifting': (of) =>
    `Capteur et manomètre s’écartent de chantier en chantier : l’un des deux est à étalonner${of}.`,
  'probe-differed': (of) => `Au dernier chantier, la sonde ne concordait pas avec le thermomètre${of}.`,
  'probe-uncompared': (of) =>
    `Une sonde jamais comparée est jugée par sa classe. Une comparaison dans la glace fondante, dans le document du capteur, raccourcit l’attente du durcissement${of}.`,
  'cup-coarse': (of) =>
    `Le gobelet témoin dit seulement si la résine réagit : pour plus, il lui faut sa masse, la température de mélange et des repères de gobelets passés dans le document de la résine${of}.`,
  'no-sleeve-place': (of) =>
    `Pas de sonde à la manchette : durcissement compté à la température du sol${of}.`,
  'air-assumed': (of) => `La pression de l’air est supposée${of}.`,
  'ground-unknown': (of) => `Pas de température du sol : sans sonde, pas de temps de durcissement${of}.`,
  'volume-estimated': (of) => `Le volume de gaz est estimé${of}.`,
  'volume-unknown': (of) => `Le volume de gaz est inconnu${of}.`,
  'overlap-short': (of) => `Le recouvrement sur conduite saine est sous 100 mm${of}.`,
  'usable-unknown': (of) => `La longueur utile du packer à ce diamètre est inconnue${of}.`,
  'defect-unknown': (of) => `La longueur du défaut est inconnue : pas de longueur de manchette${of}.`,
  'thickness-short': (of) => `La manchette est plus mince que ne le demande le contrôle d’épaisseur${of}.`,
  'thickness-unknown': (of) => `Il manque une entrée au contrôle d’épaisseur${of}.`,
  'thickness-differs': (of) => `L’épaisseur du contrôle n’est pas celle des couches${of}.`,
  'fabric-unknown': (of) => `Masse du tissu ou rapport de résine manquant : pas de masse de résine${of}.`,
  'density-unknown': (of) => `Une masse volumique manque : pas de durcisseur en masse${of}.`,
  'pot-life-unknown': (of) => `La vie en pot à cette température est inconnue${of}.`,
  'mixing-uncounted': (of) =>
    `Le temps de la fiche technique compte depuis le mélange${of}. Sans la température au mélange il est compté à partir du plaquage, et l’attente est plus longue.`,
  'pot-life-extrapolated': (of) =>
    `La température de mélange est hors du tableau de vie en pot de la fiche technique${of}.`,
  'pot-life-tight': (of) =>
    `Il reste moins de cinq minutes entre le plaquage et la fin de la vie en pot${of}.`,
  'pot-mass': (of) => `On mélange plus que la masse donnée pour la vie en pot : elle finit plus tôt${of}.`,
  'no-resin': (of) => `Aucune résine n’est choisie : le durcissement n’est pas suivi${of}.`,
  'light-cured': (of) =>
    `La résine durcit à la lumière : le temps à température n’en dit rien, et le durcissement n’est pas jugé${of}.`,
  'no-cure-points': (of) =>
    `La résine n’a pas de temps de durcissement : le durcissement n’est pas suivi${of}.`,
  cold: (of) =>
    `Le sol peut être sous la température la plus basse de la fiche technique : alors rien ne se compte${of}.`,
  'resin-expired': (of) => `Le lot de résine est périmé${of}.`,
  'batch-missing': (of) => `Des numéros de lot manquent${of}.`,
  'packer-damaged': (of) => `Le carnet du packer finit par un dommage${of}.`,
  'packer-over-rated': (of) =>
    `Le packer a dépassé sa pression admissible, et aucune inspection n’est notée depuis${of} : l’inspecter avant de l’utiliser.`,
  'packer-unseen': (of) => `Aucune inspection du packer n’est notée depuis son dernier cycle${of}.`,
  'rated-high': (of) =>
    `La pression admissible est plus haute que celle d’un packer habituel${of} : voir que ce sont des bars.`,
  'packer-leak-grows': (of) =>
    `La fuite du packer croît de chantier en chantier : en chercher la raison avant de l’utiliser${of}.`,
  'air-test-refused': (of) =>
    `Le capteur est trop incertain pour cet essai à l’air : il faut une voie de petite étendue${of}.`,
  'air-test-over-plugs': (of) =>
    `La nappe demande plus d’air qu’on n’en met sur des obturateurs : cet essai à l’air ne se fait pas${of}.`,
  'air-test-unknown': (of) => `Il manque une entrée à l’essai à l’air${of}.`,
};

const DERIVATION: Record<DerivationCode, { readonly name: string; readonly how: string }> = {
  rated: {
    name: 'Pression admissible',
    how: 'Le tableau du packer à ce diamètre ; entre deux lignes, la plus basse.',
  },
  'rated-lower': {
    name: 'Pression admissible sur cette ligne',
    how: 'De deux packers sur une ligne, la plus basse.',
  },
  u: {
    name: 'Incertitude de la mesure (k = 2)',
    how: 'Étalonnage, zéro, résolution, tension du capteur et bruit, composés.',
  },
  ceiling: { name: 'Plafond', how: 'Pression admissible moins l’incertitude de la mesure.' },
  lift: {
    name: 'Hausse attendue par la chaleur',
    how: '(travail + pression de l’air) × échauffement / température absolue du sol ; avec de l’eau dans la ligne, sa vapeur en plus.',
  },
  proposal: {
    name: 'Pression de travail proposée',
    how: 'Telle que travail + hausse + hausse après coup du flexible fassent le plafond.',
  },
  working: {
    name: 'Pression de travail',
    how: 'Comme saisie, ou comme proposée ; jamais au-dessus du plafond.',
  },
  head: {
    name: 'Charge de la nappe au radier',
    how: 'Masse volumique de l’eau × pesanteur × niveau.',
  },
  'free-inflation': {
    name: 'Pression de gonflage libre',
    how: 'Le tableau du packer à ce diamètre.',
  },
  floor: { name: 'Plancher', how: 'Charge + pression de gonflage libre + marge de plaquage.' },
  air: { name: 'Pression de l’air, absolue', how: 'Atmosphère type à l’altitude, ou comme saisie.' },
  volume: {
    name: 'Volume de gaz',
    how: 'Le tableau du packer et le flexible, ou un cylindre de sa longueur utile.',
  },
  energy: {
    name: 'Énergie emmagasinée',
    how: 'Détente isentropique du volume de gaz, forme de l’ASME PCC-2. Un packer gonflé peut tuer.',
  },
  'end-force': { name: 'Poussée en bout', how: 'Pression × section de la conduite.' },
  'sleeve-length': {
    name: 'Longueur de la manchette',
    how: 'Défaut + recouvrement sur conduite saine aux deux bouts.',
  },
  'usable-length': {
    name: 'Longueur utile du packer',
    how: 'Entre ses repères, les bouts rentrant quand le caoutchouc grossit.',
  },
  'cut-width': {
    name: 'Largeur de coupe',
    how: 'π × (diamètre intérieur − épaisseur) par couche, avec le croisement.',
  },
  'sleeve-thickness': {
    name: 'Épaisseur de la manchette',
    how: 'Couches × épaisseur d’une couche.',
  },
  'thickness-buckling': {
    name: 'Épaisseur contre l’eau, un contrôle',
    how: 'ASTM F1216, X1.1. Pour un ingénieur, pas un dimensionnement.',
  },
  'thickness-stress': {
    name: 'Épaisseur contre la flexion, un contrôle',
    how: 'ASTM F1216, X1.2. Pour un ingénieur, pas un dimensionnement.',
  },
  'resin-mass': {
    name: 'Résine mélangée',
    how: 'Surface × masse du tissu × rapport de résine, avec la perte.',
  },
  'hardener-mass': { name: 'Durcisseur compris', how: 'Selon le rapport de mélange.' },
  'pot-life': {
    name: 'Vie en pot',
    how: 'Le tableau de la fiche technique à la température de mélange.',
  },
  'seat-by': { name: 'À plaquer sous (dès le mélange)', how: 'La vie en pot.' },
  'air-test-time': { name: 'Essai à l’air : temps', how: 'Selon le tableau ou la formule de la méthode.' },
  'air-test-drop': { name: 'Essai à l’air : chute admise', how: 'Selon la méthode.' },
  'air-test-u': {
    name: 'Essai à l’air : incertitude d’une chute',
    how: 'De la différence de deux mesures.',
  },
};

export const plan = ({ noteText }: ReturnType<typeof refusals>) => ({
  DERIVATION,
  warningText: (note: PlanNote<WarningCode>, units = METRIC): string =>
    noteText(WARNING[note.code], note, units),
});
