/** Words of the about page. */
export const ABOUT = {
  title: 'À propos',
  lead: 'Ce programme surveille et avertit. Ce n’est pas un dispositif de sécurité et il ne remplace pas une soupape de sûreté.',
  cautions: 'Mises en garde',
  howTitle: 'Ce qu’il fait',
  how: [
    'Il lit le capteur de pression et les thermocouples sur la ligne de gonflage d’un packer et avertit avant que sa pression admissible soit atteinte.',
    'Il suit le maintien et le temps de durcissement, et garde un enregistrement de tout ce qui est venu du boîtier.',
    'Il marche sans réseau. Les enregistrements restent dans ce navigateur jusqu’à ce que vous les gardiez ailleurs.',
  ],
  cannotTitle: 'Ce qu’il ne peut pas savoir',
  cannot: [
    'Si le capteur est là où le dit la fiche de chantier, ou s’il indique juste : comparer le manomètre.',
    'Quelle est la pression tant qu’aucune mesure n’arrive : alors fermer la vanne d’air et tenir le packer pour plein.',
    'Si la résine est dure : seul l’échantillon témoin gardé à la température de la conduite le dit.',
    'Si le packer est vide : une ligne à zéro ne le dit pas.',
  ],
  licences: 'Bibliothèques et police de ce programme',
  licencesText: 'Chacune sous sa propre licence, avec le texte qui l’accompagnait.',
  noText: 'Le paquet ne porte pas de texte de sa licence.',
  version: (version: string) => `Steadybar ${version}`,
};
