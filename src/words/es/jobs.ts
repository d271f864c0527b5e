export const JOBS = {
  title: 'Trabajos',
  back: 'Atrás',
  start: 'Empezar una sesión en vivo',
  backToLive: 'Volver a la sesión en vivo',
  newJob: 'Nueva hoja de trabajo',
  same: 'Igual que la última',
  sheets: 'Hojas de trabajo',
  noSheets:
    'Aún no hay hojas de trabajo. Se puede empezar una sesión sin ninguna y rellenarla durante el curado.',
  openTitle: 'Una sesión quedó sin cerrar',
  maybeFull: 'Puede haber un packer lleno.',
  maybeFullAt: (pressure: string, when: string) =>
    `El packer puede estar lleno: visto por última vez a ${pressure}, ${when}.`,
  notSeenEmpty: (pressure: string, when: string) =>
    `No se vio vacío el packer: su línea estaba por última vez a ${pressure}, ${when}.`,
  leftTodo:
    'Mantenerse lejos del tubo, mirar el manómetro, desinflarlo y verlo vacío antes de acoplar o abrir nada.',
  saidEmpty: 'Lo he visto vacío',
  lineReads: (pressure: string) =>
    `La línea marca ${pressure}. Mirar otra vez el manómetro: ¿está el packer vacío a pesar de todo?`,
  emptyAllTheSame: 'Visto vacío, la lectura es falsa',
  notSure: 'Atrás, puede estar lleno',
  hold: 'mantener pulsado',
  seeLeft: 'Ver',
  maybeFullTodo:
    'Cerrar la llave de aire, mantenerse lejos del tubo, vigilar el manómetro y reanudar la sesión que quedó sin cerrar.',
  connectResume: 'Conectar y reanudar',
  openText:
    'El programa o el ordenador se paró mientras grababa esta sesión. Se conserva todo hasta el último medio segundo.',
  reconnecting: {
    trying: 'Conectando solo al puerto del que se leía. La sesión no sigue hasta pulsar.',
    failed: 'No se pudo conectar solo. No se lee nada: mirar el cable y pulsar.',
  },
  resume: 'Reanudar',
  resumeRun: (title: string, date: string) => `Reanudar: ${title}, ${date}`,
  resumeText: 'Conectar el mismo aparato; el tiempo que falta se marca como hueco.',
  closeInterrupted: 'Cerrar como interrumpida',
  closeTitle: '¿Cerrar esta sesión como interrumpida?',
  closeText: 'La curva se conserva y se marca como interrumpida. Después no se puede reanudar.',
  storageKept: 'El navegador conserva los registros de esta página.',
  storageNotKept:
    'El navegador puede borrar los registros de esta página cuando el disco se llene. Hacer una copia de seguridad (Ajustes).',
  filesFault: 'No se puede grabar nada.',
  documentsFault:
    'No se ven los trabajos, packers, resinas y sensores guardados aquí, y lo que se escriba ahora se pierde al cerrar esta página. La vigilancia funciona.',
  storageRoom: (free: string) => `${free} libres.`,
  fileRefused: (field: string, why: string | null) =>
    [
      'Este fichero no es una hoja de trabajo que se pueda leer.',
      ...(why === null ? [] : [field === '' ? why : `${field}: ${why}`]),
    ].join(' '),
  fileKept: 'Añadido. Lo que ya había aquí no ha cambiado.',
  newTitle: 'Trabajo nuevo',
  stateOpen: 'abierta',
  stateInterrupted: 'interrumpida',
  practiceTag: 'práctica',
  peak: (pressure: string) => `pico ${pressure}`,
  gaps: (n: number) => (n === 1 ? '1 hueco' : `${n} huecos`),
  alarms: (n: number) => (n === 1 ? '1 alarma' : `${n} alarmas`),
  refused: (n: number) =>
    n === 1
      ? 'Un documento no se pudo leer y queda sin tocar.'
      : `${n} documentos no se pudieron leer y quedan sin tocar.`,
  removeTitle: '¿Quitar esta hoja de trabajo?',
  removeText: 'Las sesiones grabadas con ella se conservan.',
  removed: 'Quitada.',
};
