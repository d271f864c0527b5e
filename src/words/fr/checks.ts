import type { CheckCode } from '../../job/checklist.ts';

/** What is looked at before mixing and after the repair, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Permis d’entrée et règles d’espace confiné réglés',
  'flow-stopped': 'Écoulement arrêté ou dévié',
  'camera-before': 'Inspecté à la caméra, position mesurée',
  'diameter-measured': 'Diamètre intérieur mesuré, pas seulement nominal',
  'packer-inspected':
    'Packer sans coupure, abrasion ni usure ; même une coupure superficielle le fait écarter',
  'fittings-locked': 'Raccords enclenchés et verrouillés',
  'relief-fitted': 'Soupape de sûreté montée, réglée au plus à la pression admissible',
  'regulator-fitted': 'Détendeur monté',
  'gauge-fitted': 'Manomètre monté, à zéro ligne ouverte',
  'line-zero': 'Zéro du capteur fait, raccord vu ouvert',
  'probe-warmed': 'Chaque sonde chauffée en main à côté d’un thermomètre',
  'rope-fixed': 'Corde de rappel fixée, son bout hors de la manchette',
  'film-fitted': 'Film d’équerre, non vrillé, tenu aux embouts',
  'sleeve-marks': 'Manchette entre les repères de la longueur utile',
  'batches-noted': 'Numéros de lot notés',
  'witness-kept': 'Échantillon témoin gardé à la température de la conduite',
  ventilation: 'Gaz contrôlé, ouverture ventilée',
  protection: 'Gants, yeux, respiration comme le demande la fiche de données de sécurité',
  'area-clear': 'Personne dans l’axe du packer ni au-dessus de l’ouverture',
  'camera-after': 'Caméra après la réparation',
  cleaned: 'Packer nettoyé et inspecté de nouveau',
};
