import type { BACKUP as ENGLISH } from '../en/backup.ts';

export const BACKUP: typeof ENGLISH = {
  title: 'Copia de seguridad',
  lead: 'Un fichero con todo lo de este ordenador: hojas de trabajo, packers, resinas, sensores, pruebas de banco, sesiones, registros sellados, ficheros guardados, decisiones y ajustes. La clave de firma no va dentro: no se puede sacar.',
  link: 'Copiar y restaurar',
  make: 'Hacer una copia',
  makeWhat: 'Guardar el fichero lejos de este ordenador. Hacer otra tras cada día de trabajo.',
  making: 'Haciendo la copia',
  made: 'Guardada. Contiene:',
  leftOut: (n: number) =>
    n === 1
      ? 'Una sesión aún no tiene final y no va dentro.'
      : `${n} sesiones aún no tienen final y no van dentro.`,
  empty: 'Aún no hay nada que guardar: ni hoja de trabajo ni sesión.',
  restore: 'Restaurar',
  restoreWhat:
    'Elegir una copia. Primero se revisa, y se muestra lo que se escribiría. Nada de lo que hay aquí se sobrescribe.',
  choose: 'Elegir una copia',
  looking: 'Revisando la copia',
  summary: 'Lo que contiene',
  madeBy: (date: string, software: string) => `Hecha el ${date} por ${software}.`,
  group: 'Qué',
  groups: {
    job: 'Hojas de trabajo',
    packer: 'Packers',
    resin: 'Resinas',
    sensor: 'Sensores',
    registers: 'Mapas de registros',
    columns: 'Mapas de columnas',
    checklist: 'Listas de control',
    bench: 'Pruebas de banco de aparatos',
    settings: 'Ajustes',
    run: 'Sesiones',
    seal: 'Sellos',
    addition: 'Añadidos a registros',
    review: 'Decisiones sobre registros',
    enclosed: 'Fotos y firmas a mano, por trabajo o sesión',
    import: 'Ficheros de fuera',
  },
  fates: {
    new: 'nuevo',
    same: 'ya está aquí',
    grows: 'se amplía',
    differs: 'aquí es distinto',
    refused: 'rechazado',
  },
  why: {
    future: 'de una versión posterior: actualizar primero este programa',
    form: 'no tiene la forma de su clase',
    'file-missing': 'su fichero no está en la copia',
    open: 'la sesión no tiene final',
    'other-run': 'nombra otra sesión',
    signature: 'su sello no lo firmó su clave',
    key: 'la huella que nombra no es la de su clave',
    pages: 'su sello es de otros bloques',
    log: 'lo que lleva de un diario de control no se sostiene, o no es suyo',
    chain: 'sus añadidos no se siguen de él, o no están firmados',
    'unsealed-here': 'la sesión está aquí sin sello, y no admite otro que el de la clave de este ordenador',
  },
  untitled: (id: string) => `sin nombre (${id})`,
  differing: 'Lo que aquí es distinto',
  choices: {
    mine: 'Dejarlo fuera: se queda solo lo de aquí',
    both: 'Quedarse con ambos: el de la copia con otro nombre',
  },
  takeSettings: 'Tomar los ajustes de la copia en lugar de los de aquí',
  strange: (n: number) =>
    n === 1
      ? '1 línea no es ningún documento y se deja fuera.'
      : `${n} líneas no son documentos y se dejan fuera.`,
  leftOutThere: (n: number) =>
    n === 1
      ? '1 sesión no tenía final cuando se hizo y no va dentro.'
      : `${n} sesiones no tenían final cuando se hizo y no van dentro.`,
  writes: (bytes: string) => `Se escribirán: ${bytes}`,
  writesInto: (bytes: string, free: string) => `Se escribirán: ${bytes} (${free} libres)`,
  noRoom: 'No hay bastante sitio en este ordenador.',
  take: 'Qué tomar',
  takeRuns: 'Sesiones',
  takeSeals:
    'Sellos de esas sesiones. Sin ellos, este ordenador puede sellarlas de nuevo con su propia clave',
  takeAdditions:
    'Añadidos a registros. A los registros que ya están aquí, solo si su clave se conoce aquí o se marca abajo',
  takeDecisions: 'Decisiones sobre registros que ya están aquí',
  keys: 'Claves que nombra',
  keysWhat:
    'Cualquiera puede escribir una copia. Marcar una clave solo si se ha comparado su huella con una llegada por otro camino. Sin marca, sus registros se restauran igualmente, como firmados por una clave que aquí no se conoce.',
  keyRole: {
    own: (date: string) => `Clave de firma de aquel ordenador desde el ${date}, según la copia`,
    known: (name: string, date: string) => `Conocida allí como «${name}» desde el ${date}`,
    signer: 'Firmó algo de la copia, y no está en ninguna de sus listas',
  },
  keySigned: (seals: number, additions: number) =>
    `Firmado en esta copia: ${seals} ${seals === 1 ? 'sello' : 'sellos'}, ${additions} ${additions === 1 ? 'añadido' : 'añadidos'}.`,
  keyHere: 'Ya se conoce aquí.',
  keyTick: {
    own: 'Contar sus registros como propios de este ordenador',
    known: (name: string) => `Darla aquí por conocida como «${name}»`,
  },
  keyNew:
    'La clave de firma no va en la copia. En este ordenador se hace una nueva; hay que decir su huella a la empresa.',
  keyStays: 'Este ordenador conserva su propia clave de firma. La de la copia no va dentro.',
  keyMade: 'En este ordenador se ha hecho una clave de firma nueva. Decir su huella a la empresa:',
  keyNone: 'Este navegador no hace claves de firma. Aquí los registros se pueden ver y no sellar.',
  go: 'Restaurar esta copia',
  going: 'Restaurando',
  nothing: 'Todo lo de esta copia ya está aquí.',
  done: (both: number) =>
    both === 0 ? 'Restaurado según lo elegido.' : `Restaurado según lo elegido; ${both} con otro nombre.`,
  reload: 'Recargar para verlo',
  cancel: 'Cancelar',
  running: 'Hay una sesión en marcha. Restaurar cuando haya terminado.',
  other: 'Elegir otra',
};
