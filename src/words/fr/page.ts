/** What the bare page says before and without any program; the names under which the browser installs it. */
export const PAGE = {
  name: 'Steadybar',
  description: 'Surveille la pression du packer et le durcissement lors de réparations de conduites',
  noScript: 'Steadybar a besoin de JavaScript. Suivre le manomètre.',
  /** Where the program does not start. */
  guard: {
    title: 'Steadybar n’a pas pu démarrer',
    nothing: 'Rien n’est surveillé et aucune alarme ne peut venir. Suivre le manomètre et rester à l’écart.',
    todo: 'Recharger cette page. Si cela ne change rien, fermer toutes les fenêtres de Steadybar et le rouvrir, mettre le navigateur à jour ou en prendre un autre. Les sessions et documents gardés restent dans ce navigateur : ne pas effacer ses données.',
    reload: 'Recharger cette page',
    detail: 'Ce que dit le navigateur :',
    late: 'rien ; le programme n’est pas arrivé à temps.',
    missing: 'une partie du programme n’a pas pu être obtenue :',
  },
};
