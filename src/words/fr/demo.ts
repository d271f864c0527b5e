import type { DemoNames } from '../../job/demo.ts';

/** Names in the invented job for practice. Places, people, packer and resin do not exist. */
export const DEMO_NAMES: DemoNames = {
  title: 'Exercice : fissure à 12,4 m, grès 150 mm',
  site: 'Cour d’exercice, regard P3 à P4',
  client: 'Client d’exercice',
  notes: 'Inventé pour l’exercice.',
  packer: 'Packer d’exercice 100-150',
  leakCheck: 'dans le tube d’essai',
  resin: 'Résine d’exercice, deux composants',
  transducer: 'Capteur 0-4 bar',
  reference: 'Manomètre étalon G-3',
  sleeveProbe: 'Sonde, manchette',
  airProbe: 'Sonde, air dans le packer',
  pipeProbe: 'Sonde, conduite',
};
