/** What the bare page says before and without any program; the names under which the browser installs it. */
export const PAGE = {
  name: 'Steadybar',
  description: 'Packerdruck und Aushärtung im Blick bei der Rohrsanierung',
  noScript: 'Steadybar braucht JavaScript. Auf das Manometer achten.',
  /** Where the program does not start. */
  guard: {
    title: 'Steadybar konnte nicht starten',
    nothing: 'Nichts wird überwacht, kein Alarm kann kommen. Auf das Manometer achten, Abstand halten.',
    todo: 'Diese Seite neu laden. Bleibt es so: alle Fenster von Steadybar schließen und neu öffnen, den Browser aktualisieren oder einen anderen nehmen. Gespeicherte Läufe und Blätter bleiben in diesem Browser: seine Daten nicht löschen.',
    reload: 'Diese Seite neu laden',
    detail: 'Der Browser meldet:',
    late: 'nichts; das Programm kam nicht rechtzeitig.',
    missing: 'ein Teil des Programms war nicht zu bekommen:',
  },
};
