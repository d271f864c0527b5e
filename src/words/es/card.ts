/** Palabras de la tarjeta que se imprime para donde nadie mira una pantalla; órdenes, etapas y avisos son los del programa. */
export const CARD = {
  lead: 'Una hoja de papel para donde nadie mira la pantalla. Dice lo mismo que la pantalla.',
  print: 'Imprimir la tarjeta',
  forJob: 'Para el trabajo',
  blank: 'En blanco, para escribir',
  gone: 'Esta hoja de trabajo ya no está: la tarjeta queda en blanco.',

  numbers: 'Este trabajo',
  potLife: 'Vida de mezcla',
  hold: 'Retener al menos',
  holdAt: (c: string) => `Retener al menos (${c})`,
  mixed: 'Mezcla a las',
  held: 'Retención desde',
  until: 'Retener hasta',
  who: 'Cuadrilla',
  call: 'Emergencias',
  cure: 'Tiempo de curado',
  planned: (date: string) => `Previsto ${date}. Si la pantalla dice menos, vale la pantalla.`,
  refused: 'EL PLAN RECHAZA ESTE TRABAJO: ver la hoja de trabajo.',

  work: 'Orden del trabajo',
  alarms: 'Alarma: qué hacer primero',
  otherwise: 'si no',
  low: 'lo que diga la pantalla',

  dark: 'Pantalla negra o parada, ordenador muerto: por manómetro y reloj',
  darkSteps: (ceiling: string | null): readonly string[] => [
    'Cerrar la llave de aire. Todos lejos.',
    'Leer el manómetro. Anotar presión y hora, cada 5 min.',
    ceiling === null ? 'En el techo o por encima: purgar.' : `A ${ceiling} o más: purgar.`,
    'Retener por reloj, no menos. Luego, tocar la muestra.',
    'Desinflar por la purga. Manómetro a cero: no está vacío.',
  ],

  cautions: 'Precauciones',
  local:
    'Nunca por encima de la presión admisible. Primero, normas locales, permisos e instrucciones de los fabricantes; lo que pide licencia lo hace quien la tiene.',
};
