/** Là où une équipe s’arrête et demande : qu’est-ce que c’est, que faire. Deux à quatre phrases chacune, lues sur place. */
export const HELP = {
  supply:
    'Avant que le packer soit sur le flexible, l’arrivée d’air est ouverte contre un bout fermé. Là où elle se stabilise, c’est où mènerait une vanne laissée ouverte : ce doit être sous le plafond. Si elle monte encore toute seule, le détendeur laisse passer l’air (montée lente) : le réparer ou en prendre un autre. Puis vider le flexible par la purge avant de raccorder quoi que ce soit.',
  zero: 'Raccord vu ouvert, il n’y a pas de pression dans la ligne : ce que le capteur indique alors est sa propre erreur, et elle est retirée dès lors. Ne jamais faire le zéro sur une ligne qui peut être sous pression : l’erreur se cacherait dans chaque mesure. Si le zéro est refusé comme trop loin, la ligne n’est pas ouverte ou le capteur est abîmé.',
  gauge:
    'Le manomètre est le deuxième avis sur l’unique capteur : vanne fermée, les deux doivent indiquer la même chose. Le regarder bien en face et taper ce qu’il indique, pas ce que dit l’écran. S’ils diffèrent, c’est le plus haut qui compte, et on cherche lequel se trompe avant de remettre de l’air.',
  probe:
    'Tenir la sonde et le thermomètre ensemble dans la main chaude jusqu’à ce que les deux ne bougent plus. Une sonde qui ne suit pas est en court-circuit, inversée ou sur une autre voie, et ferait croire chaude une manchette froide. Cela se fait avant de mélanger la résine : jusque-là la sonde ne gagne pas de temps de durcissement au-dessus de la température du sol.',
  sample:
    'Un peu du même mélange est gardé aussi froid que la conduite : descendu au bout d’une ficelle, pas dans le camion, et personne ne descend pour cela. On le tâte avant de dégonfler : s’il n’est pas dur, on attend, quoi que dise le compte. Un échantillon gardé au chaud est dur des heures trop tôt et ne prouve rien.',
  cup: 'Un gobelet du même mélange avec une sonde dedans montre si ce mélange réagit comme il doit : il chauffe plus tôt que la manchette, qui est mince. Peser ce qu’on y met : plus de masse chauffe plus et va plus vite. Il parle du mélange, pas de la manchette : l’échantillon témoin se tâte quand même.',
  working:
    'La pression de travail est celle à laquelle le packer est maintenu. Elle est au-dessus du plancher, sous lequel la manchette peut se décoller de la paroi, et sous le plafond, qui est la pression admissible moins l’incertitude de la mesure. Une ligne fermée monte quand la résine chauffe, sans plus d’air : la proposition du plan laisse de la place pour cela.',
  tap: 'La prise est là où la ligne du capteur part de la ligne d’air. Suivre le flexible à la main du capteur au packer : avec un clapet, un raccord qui se ferme seul ou une vanne fermée entre les deux, le capteur lit l’arrivée d’air et non le packer. Alors il n’y a d’alerte que de surpression ; maintien et fuite ne sont pas jugés.',
  airTest:
    'La réparation finie est fermée par un obturateur à chaque bout, mise à la pression d’essai et laissée au repos ; puis la chute de pression est mesurée. L’écran mène d’un pas à l’autre, et le résultat compte avec l’incertitude du capteur. Un obturateur ou un flexible peut fuir aussi : les savonner avant d’accuser la réparation. Personne près des obturateurs tant qu’il y a de l’air entre eux.',
  marks:
    'L’échelle est la pression, de zéro en bas à plus que l’admissible en haut. L’admissible est la limite dure du packer, et au plafond, dessous, vient l’alarme. La plaque pleine est là où l’étape doit finir ; sous le plancher la manchette peut se décoller. On voit aussi où la chaleur de réaction mènera une ligne fermée.',
  seal: 'Sceller signe l’enregistrement avec la clé propre de cet ordinateur : qui a le fichier voit si quelque chose y a changé depuis. Cela ne prouve ni où était le capteur, ni que l’horloge était juste. Un deuxième ordinateur qui contresigne le journal retient où il finissait : une session ne peut alors être ni omise ni refaite sans que cela se voie.',
  registers:
    'La table dit dans quels registres du boîtier se trouvent la pression et les températures, et comment leurs nombres deviennent bar et °C. Tout est dans la liste des registres du fabricant : adresse, type, ordre des mots, échelle. L’essayer avant un chantier : raccord ouvert, on doit lire zéro, et avec de l’air dans la ligne, ce qu’indique le manomètre.',
  columns:
    'Chaque ligne du boîtier est une mesure ; ses valeurs sont en colonnes, comptées à partir de 1 depuis la gauche, ou portent un nom. Dire laquelle est la pression et lesquelles sont des températures, chacune dans son unité. L’essayer avant un chantier : raccord ouvert, on doit lire zéro, et avec de l’air dans la ligne, ce qu’indique le manomètre.',
};
