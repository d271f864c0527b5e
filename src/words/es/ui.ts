export const UI = {
  app: 'Steadybar',
  colon: ':',
  skip: 'Saltar a la página',
  jobs: 'Trabajos',
  live: 'En vivo',
  archive: 'Archivo',
  settings: 'Ajustes',
  about: 'Acerca de',
  mainNav: 'Páginas',
  menu: 'Menú',
  card: 'Tarjeta de obra',
  helpOn: (what: string) => `Ayuda: ${what}`,
  standingMarks: 'Avisos permanentes',

  // values
  pressure: 'Presión',
  temperature: 'Temperatura',
  rated: 'Admisible',
  ceiling: 'Techo',
  working: 'Trabajo',
  floor: 'Mínimo',
  lines: 'Líneas de la gráfica',
  notKnown: 'no se sabe',
  oldReading: 'Lectura antigua',
  oldReadingOf: (age: string) => `Lectura antigua, ${age}`,
  lostReading: 'Lectura perdida.',
  noReading: 'Sin lectura',
  overRange: (end: string) => `MÁS DE ${end}`,
  ladder: (now: string, ceiling: string, rated: string) =>
    `Presión ${now}. Techo ${ceiling}. Admisible ${rated}.`,
  ladderNoLimit: (now: string) => `Presión ${now}. Sin límite: no se avisa de sobrepresión`,

  // alarms
  failed: (title: string, todo: string, detail: string) =>
    detail === '' ? `${title}. ${todo}` : `${title}. ${todo} (${detail})`,
  noAlarms: 'Sin alarmas.',
  notLive: 'Sin conexión: sin alarmas.',
  acknowledge: 'Reconocer',
  shelve: 'Aplazar',
  shelveText:
    'Calla durante diez minutos y después vuelve a sonar si sigue en pie. El motivo queda registrado.',
  engineSilent: 'La vigilancia ha dejado de responder',
  engineSilentVerb: ['MIRAR EL', 'MANÓMETRO'],
  engineSilentTodo:
    'Nada de esta pantalla es actual. Vigilar el manómetro, mantenerse lejos y después recargar esta página.',
  reload: 'Recargar esta página',
  pageFailed: 'Esta página ha fallado',
  pageFailedTodo:
    'La vigilancia sigue y las alarmas aún suenan, pero vigilar el manómetro. Probar otra vez, o recargar: una sesión abierta se vuelve a ofrecer.',

  pageFault: 'No se pudo dibujar una parte de esta página',
  pageFaultTodo:
    'La vigilancia sigue y las alarmas aún suenan, pero los números de aquí pueden ser antiguos. Vigilar el manómetro y después recargar.',
  pageFaultSeen: 'Visto',

  // buttons
  cancel: 'Cancelar',
  save: 'Guardar',
  saved: 'Guardado',
  remove: 'Quitar',
  back: 'Atrás',
  undo: 'Deshacer',
  close: 'Cerrar',
  retry: 'Probar otra vez',

  // data on their way
  update: 'Hay una versión nueva lista.',
  updateNow: 'Reiniciar con la versión nueva',
  loading: 'Cargando',
  noAnswer:
    'Los datos guardados no responden. A la página en vivo no le afecta. Probar otra vez; si sigue igual, recargar.',

  // stages
  stages: 'Fases',

  // second screen
  far: {
    title: 'Presión, segunda pantalla',
    noData: 'SIN DATOS',
    twoPages: 'DOS PÁGINAS: CERRAR UNA',
    note: 'Lo dice la página que vigila. Aquí no se muestra ninguna alarma.',
    units: { bar: 'bar', kPa: 'kPa', psi: 'psi' },
  },

  // practice
  practiceWord: 'PRÁCTICA',
  practiceBanner: 'PRÁCTICA. Nada de aquí es una línea real.',
};
