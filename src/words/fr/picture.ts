/** Words of pictures of a record. */
export const PICTURE = {
  rated: 'Admissible',
  ceiling: 'Plafond',
  working: 'Travail',
  floor: 'Plancher',
  seat: 'Plaquer',
  sensorEnd: 'Fin du capteur',
  /** @param longestS the latest time that the axis shows, s */
  time: (longestS: number): string => (longestS < 3600 ? 'temps en min:s' : 'temps en h:min:s'),
  /** @param records their numbers in the picture */
  namedOf: (mark: string, records: string) => `${mark} (${records})`,
  numbered: (n: number, title: string) => `${n}  ${title}`,
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
