export const PICTURE = {
  rated: 'Admisible',
  ceiling: 'Techo',
  working: 'Trabajo',
  floor: 'Mínimo',
  seat: 'Asiento',
  sensorEnd: 'Fin del sensor',
  /** @param longestS the latest time that the axis shows, s */
  time: (longestS: number): string => (longestS < 3600 ? 'tiempo en min:s' : 'tiempo en h:min:s'),
  namedOf: (mark: string, records: string) => `${mark} (${records})`,
  numbered: (n: number, title: string) => `${n}  ${title}`,
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
