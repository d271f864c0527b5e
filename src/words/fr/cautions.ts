import type { ShownCaution } from '../said/cautions-at.ts';

export { CAUTIONS_AT } from '../said/cautions-at.ts';

/** Cautions shown where they matter: at the job sheet, before air goes in, at let-down, on the about page. */

export const CAUTION: Record<ShownCaution, string> = {
  'not-a-safety-device':
    'Ce programme surveille et avertit. Ce n’est pas un dispositif de sécurité et il ne remplace pas une soupape de sûreté.',
  'stored-energy':
    'Un packer gonflé emmagasine de l’énergie : son éclatement peut tuer. Rester hors de l’axe de la conduite et à l’écart de l’ouverture. Ne jamais gonfler un packer hors d’une conduite ou d’une retenue au-delà de ce que permet son fabricant. Utiliser un détendeur, et une soupape de sûreté réglée au plus à la pression admissible.',
  'big-packer':
    'Un gros packer à basse pression n’est pas moins dangereux : l’énergie et la poussée en bout croissent avec le volume et la surface.',
  unrestrained:
    'Sur un vide, une paroi manquante, un branchement ouvert ou avec un bout qui dépasse, un packer n’est pas retenu : il peut éclater sous sa pression admissible.',
  'hose-whip': 'Un flexible fouette : ne jamais ouvrir un raccord sous pression.',
  'dammed-water':
    'Une conduite bouchée retient son eau : caves en amont, poussée sur le packer, vague quand il est libéré.',
  'explosive-gas':
    'Le gaz d’égout et le styrène peuvent exploser : l’électronique et les fils à l’ouverture doivent répondre aux règles locales.',
  'no-warning': 'Pas d’alerte ne veut pas dire pas de danger.',
  'resin-hazard':
    'Isocyanates, styrène, peroxydes, durcisseurs époxy : suivre la fiche de données de sécurité, ventiler, porter des gants. Un reste de résine mélangée dans un seau chauffe et peut brûler.',
  'confined-space':
    'Entrer dans un regard est un travail en espace confiné : suivre la loi locale et le permis.',
  'engineer-design':
    'Le dimensionnement d’une réparation (épaisseur, aptitude) revient à un ingénieur habilité là où la loi le dit. Les chiffres du plan sont un contrôle, pas un calcul de dimensionnement.',
  empty:
    'Un flexible purgé indique zéro bien avant qu’un gros packer soit vide, et un pli ou un clapet peut indiquer zéro pour toujours. Ce programme ne peut pas dire qu’un packer peut être tiré.',
  plugs:
    'L’air entre des obturateurs emmagasine de l’énergie : un obturateur qui glisse est éjecté et peut tuer, même à un dixième de bar. Étayer les deux, personne dans le regard ni dans l’axe de la conduite, jamais plus que ce que demande l’essai, tout l’air dehors avant de toucher un obturateur. Suivre le fabricant des obturateurs et les règles locales.',
  witness:
    'Avant de dégonfler, tâter l’échantillon témoin gardé à la température de la conduite. Un échantillon gardé au chaud dans le camion durcit des heures trop tôt.',
};
