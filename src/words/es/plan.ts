import type { DerivationCode, PlanNote, WarningCode } from '../../job/plan-codes.ts';
import { METRIC } from '../create-format.ts';
import type { refusals } from './refusals.ts';

/** `of` is what the warning is about and its numbers, in brackets, or nothing. */
const WARNING: Record<WarningCode, (of: string) => string> = {
  'no-packer': (of) => `No se ha elegido packer: sin límite, no se avisa de sobrepresión${of}.`,
  'no-rating': (of) => `El packer no tiene presión admisible: sin límite, no se avisa de sobrepresión${of}.`,
  'diameter-unknown': (of) =>
    `No se sabe el diámetro del tubo: se usa la admisible más baja del packer${of}.`,
  'diameter-not-measured': (of) => `El tamaño nominal hace de diámetro interior${of}. Medirlo.`,
  'plate-says-working': (of) => `La presión de trabajo de la placa se toma como admisible${of}.`,
  'working-proposed': (of) => `No se escribió presión de trabajo: se usa la propuesta${of}.`,
  'ceiling-kept': (of) =>
    `Durante una sesión el techo se puede bajar, nunca subir: vale el de su comienzo${of}.`,
  'no-margin': (of) =>
    `Trabajar a la presión admisible no deja margen para un sensor que lee de menos ni para el calor del curado${of}.`,
  'lift-past-ceiling': (of) => `El calor del curado puede llevar la línea sobre el techo${of}.`,
  'rise-assumed': (of) =>
    `El calentamiento del aire por el curado se supone según la clase de exotermia${of}.`,
  'heating-unknown': (of) =>
    `Nadie dijo si el packer se calienta desde fuera: el curado se cuenta como si sí, y se alcanza más tarde${of}. Decirlo en la hoja de trabajo.`,
  'heated-to-unknown': (of) =>
    `El packer se calienta y nadie dijo a cuánto: la subida por ese calor no está en el plan${of}. Escribirlo en la hoja de trabajo.`,
  'not-gas': (of) =>
    `Con agua o vapor en el packer no vale la ley de los gases: no se puede decir una fuga ni prever la subida por calor${of}.`,
  'wetness-unknown': (of) =>
    `Nadie dijo si hay agua en la línea: se cuenta la subida por su vapor${of}. Decirlo en la hoja de trabajo.`,
  'two-on-line': (of) =>
    `De esta línea cuelgan dos packers y un sensor no los distingue: solo se ve uno, y el límite es la admisible más baja${of}.`,
  'no-relief': (of) =>
    `No consta válvula de seguridad${of}. Poner una, tarada a la presión admisible o por debajo.`,
  'relief-over-rated': (of) => `La válvula de seguridad está tarada sobre la presión admisible${of}.`,
  'relief-under-working': (of) => `La válvula de seguridad abre a la presión de trabajo o antes${of}.`,
  'water-unknown': (of) => `No se sabe el agua freática: no hay mínimo${of}.`,
  'free-inflation-unknown': (of) =>
    `No se sabe la presión de inflado libre del packer: no hay mínimo hasta que el inflado la muestre${of}.`,
  'seat-over-working': (of) =>
    `La presión de asiento no es menor que la de trabajo: no se prevé pausa de asiento${of}.`,
  'tap-no-hold': (of) => `Sensor aquí: solo aviso de sobrepresión, sin control de fugas${of}.`,
  'second-left-out': (of) =>
    `Un trabajo lee dos presiones, cada una de su posición: este canal no se lee${of}.`,
  'line-unknown': (of) => `No se sabe cómo se alimenta la línea: no se puede decir una fuga${of}.`,
  'u-large': (of) => `La incertidumbre de la lectura pasa de un décimo de la presión admisible${of}.`,
  'u-assumed': (of) => `No se sabe nada del sensor: se supone una incertidumbre amplia${of}.`,
  'device-not-described': (of) => `No hay aparato conectado: los datos del sensor llegan al conectar${of}.`,
  'channel-missing': (of) => `El aparato no tiene ese canal${of}.`,
  'sensor-missing': (of) => `El documento de un sensor asignado no está${of}.`,
  'beside-missing': (of) => `El segundo adaptador no responde, o no tiene ese canal${of}.`,
  'beside-pressure': (of) => `El segundo adaptador solo sirve para temperaturas: su presión no se lee${of}.`,
  'signal-differs': (of) =>
    `El documento del sensor y el aparato no concuerdan en la señal: se usa la del aparato${of}.`,
  'span-unknown': (of) =>
    `Nadie dice qué tensiones son el comienzo y el final del rango del sensor: el canal no se lee${of}. Escribir ambas en el documento del sensor y ponerlo en la hoja de trabajo.`,
  'calibration-none': (of) => `El sensor no tiene calibración${of}.`,
  'calibration-refused': (of) => `Los puntos de la calibración no dan calibración: no se usa${of}.`,
  'calibration-other-device': (of) => `La calibración se hizo con otro aparato o canal: no se usa${of}.`,
  'calibration-due': (of) => `La calibración está vencida${of}.`,
  'sensor-retired': (of) => `El sensor está retirado${of}.`,
  'zero-refused': (of) => `En su último trabajo el cero del sensor estaba demasiado lejos para tomarlo${of}.`,
  'zero-jumped': (of) =>
    `El cero del sensor se movió más en su último trabajo que en los anteriores${of}. Compararlo pronto.`,
  'zero-drifting': (of) =>
    `El cero del sensor se mueve de trabajo en trabajo y pronto estará demasiado lejos para tomarlo${of}.`,
  'gauge-differed': (of) => `En su último trabajo el sensor no coincidió con el manómetro${of}.`,
  'gauge-drifting': (of) =>
    `Sensor y manómetro se separan de trabajo en trabajo: a uno de ellos le toca calibración${of}.`,
  'probe-differed': (of) => `En su último trabajo la sonda no coincidió con el termómetro${of}.`,
  'probe-uncompared': (of) =>
    `Una sonda que nunca se comparó se juzga por su clase. Una comparación en hielo fundente, en el documento del sensor, acorta la espera del tiempo de curado${of}.`,
  'cup-coarse': (of) =>
    `El vaso testigo solo dice si la resina reacciona: para más necesita su masa, la temperatura al mezclar y marcas de vasos anteriores en el documento de la resina${of}.`,
  'no-sleeve-place': (of) => `Sin sonda en la manga: el curado se cuenta a la temperatura del terreno${of}.`,
  'air-assumed': (of) => `La presión del aire se supone${of}.`,
  'ground-unknown': (of) => `Sin temperatura del terreno: sin sonda, no hay tiempo de curado${of}.`,
  'volume-estimated': (of) => `El volumen de gas está estimado${of}.`,
  'volume-unknown': (of) => `El volumen de gas no se sabe${of}.`,
  'overlap-short': (of) => `El solape sobre tubo sano es menor de 100 mm${of}.`,
  'usable-unknown': (of) => `No se sabe la longitud útil del packer con este diámetro${of}.`,
  'defect-unknown': (of) => `No se sabe la longitud del defecto: no hay longitud de manga${of}.`,
  'thickness-short': (of) => `La manga es más fina de lo que pide el control de espesor${of}.`,
  'thickness-unknown': (of) => `Falta un dato del control de espesor${of}.`,
  'thickness-differs': (of) => `El espesor del control no es el de las capas${of}.`,
  'fabric-unknown': (of) => `Falta el peso del tejido o la relación de resina: no hay masa de resina${of}.`,
  'density-unknown': (of) => `Falta una densidad: no hay endurecedor en masa${of}.`,
  'pot-life-unknown': (of) => `No se sabe la vida de la mezcla a esta temperatura${of}.`,
  'mixing-uncounted': (of) =>
    `El tiempo de la ficha técnica cuenta desde la mezcla${of}. Sin la temperatura al mezclar se cuenta desde el asiento, y la espera es más larga.`,
  'pot-life-extrapolated': (of) =>
    `La temperatura de mezcla está fuera de la tabla de vida de la mezcla de la ficha técnica${of}.`,
  'pot-life-tight': (of) =>
    `Entre el asiento y el fin de la vida de la mezcla quedan menos de cinco minutos${of}.`,
  'pot-mass': (of) => `Se mezcla más de lo que dice la ficha para la vida de la mezcla: se acaba antes${of}.`,
  'no-resin': (of) => `No se ha elegido resina: no se sigue el tiempo de curado${of}.`,
  'light-cured': (of) =>
    `La resina cura con luz: el tiempo a temperatura no dice nada de ella, y el curado no se juzga${of}.`,
  'no-cure-points': (of) => `La resina no tiene tiempo de curado: no se sigue el tiempo de curado${of}.`,
  cold: (of) =>
    `El terreno puede estar bajo la temperatura mínima de la ficha técnica: entonces no se cuenta tiempo de curado${of}.`,
  'resin-expired': (of) => `El lote de resina está caducado${of}.`,
  'batch-missing': (of) => `Faltan números de lote${of}.`,
  'packer-damaged': (of) => `El historial del packer acaba en daño${of}.`,
  'packer-over-rated': (of) =>
    `El packer pasó de su presión admisible, y desde entonces no consta inspección${of}: inspeccionarlo antes de usarlo.`,
  'packer-unseen': (of) => `Desde su último ciclo no consta inspección del packer${of}.`,
  'rated-high': (of) =>
    `La presión admisible es más alta de lo habitual en packers${of}: mirar que sean bar.`,
  'packer-leak-grows': (of) =>
    `La fuga del packer crece de trabajo en trabajo: buscar la causa antes de usarlo${of}.`,
  'air-test-refused': (of) =>
    `El sensor es demasiado incierto para este ensayo con aire: necesita un canal de rango bajo${of}.`,
  'air-test-over-plugs': (of) =>
    `El agua freática pide más aire del que se da a los obturadores: este ensayo con aire no se hace${of}.`,
  'air-test-unknown': (of) => `Falta un dato del ensayo con aire${of}.`,
};

const DERIVATION: Record<DerivationCode, { readonly name: string; readonly how: string }> = {
  rated: {
    name: 'Presión admisible',
    how: 'La tabla del packer con este diámetro; entre dos filas, la más baja.',
  },
  'rated-lower': {
    name: 'Presión admisible en esta línea',
    how: 'De dos packers en una línea, la admisible más baja.',
  },
  u: {
    name: 'Incertidumbre de la lectura (k = 2)',
    how: 'Calibración, cero, resolución, tensión del sensor y ruido, combinados.',
  },
  ceiling: { name: 'Techo', how: 'La presión admisible menos la incertidumbre de la lectura.' },
  lift: {
    name: 'Subida esperada por calor',
    how: '(trabajo + presión del aire) × subida / temperatura absoluta del terreno; con agua en la línea, además su vapor.',
  },
  proposal: {
    name: 'Presión de trabajo propuesta',
    how: 'La que hace que trabajo + subida + subida posterior de la manguera sea el techo.',
  },
  working: {
    name: 'Presión de trabajo',
    how: 'Como se escribió, o como se propuso; nunca sobre el techo.',
  },
  head: {
    name: 'Carga de agua freática en la solera',
    how: 'Densidad del agua × gravedad × nivel.',
  },
  'free-inflation': {
    name: 'Presión de inflado libre',
    how: 'La tabla del packer con este diámetro.',
  },
  floor: { name: 'Mínimo', how: 'Carga de agua + presión de inflado libre + margen de asiento.' },
  air: {
    name: 'Presión del aire, absoluta',
    how: 'Atmósfera estándar a esa altitud, o como se escribió.',
  },
  volume: {
    name: 'Volumen de gas',
    how: 'La tabla del packer y la manguera, o un cilindro de su longitud útil.',
  },
  energy: {
    name: 'Energía almacenada',
    how: 'Expansión isentrópica del volumen de gas, en la forma de ASME PCC-2. Un packer inflado puede matar.',
  },
  'end-force': { name: 'Fuerza en el extremo', how: 'Presión × área del tubo.' },
  'sleeve-length': {
    name: 'Longitud de la manga',
    how: 'Defecto + solape sobre tubo sano en ambos extremos.',
  },
  'usable-length': {
    name: 'Longitud útil del packer',
    how: 'Entre sus marcas, con los extremos recogidos al crecer la goma.',
  },
  'cut-width': {
    name: 'Ancho de corte',
    how: 'π × (diámetro interior − espesor) por capa, con el solape.',
  },
  'sleeve-thickness': { name: 'Espesor de la manga', how: 'Capas × espesor de una capa.' },
  'thickness-buckling': {
    name: 'Espesor contra el agua, un control',
    how: 'ASTM F1216, X1.1. Para un técnico, no un proyecto.',
  },
  'thickness-stress': {
    name: 'Espesor contra flexión, un control',
    how: 'ASTM F1216, X1.2. Para un técnico, no un proyecto.',
  },
  'resin-mass': {
    name: 'Resina mezclada',
    how: 'Área × peso del tejido × relación de resina, con la merma.',
  },
  'hardener-mass': { name: 'De ella, endurecedor', how: 'Según la relación de mezcla.' },
  'pot-life': {
    name: 'Vida de la mezcla',
    how: 'La tabla de la ficha técnica a la temperatura de mezcla.',
  },
  'seat-by': { name: 'Asentar antes de (desde la mezcla)', how: 'La vida de la mezcla.' },
  'air-test-time': {
    name: 'Ensayo con aire: tiempo',
    how: 'Según la tabla o la fórmula del método.',
  },
  'air-test-drop': { name: 'Ensayo con aire: caída admitida', how: 'Según el método.' },
  'air-test-u': {
    name: 'Ensayo con aire: incertidumbre de una caída',
    how: 'De la diferencia de dos lecturas.',
  },
};

export const plan = ({ noteText }: Pick<ReturnType<typeof refusals>, 'noteText'>) => ({
  DERIVATION,
  warningText: (note: PlanNote<WarningCode>, units = METRIC): string =>
    noteText(WARNING[note.code], note, units),
});
