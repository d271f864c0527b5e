/** Words of pictures of a record. */
export const PICTURE = {
  rated: 'Höchstdruck',
  ceiling: 'Obergrenze',
  working: 'Arbeitsdruck',
  floor: 'Mindestdruck',
  seat: 'Anlegen',
  sensorEnd: 'Ende des Sensors',
  /** @param longestS the latest time that the axis shows, s */
  time: (longestS: number): string => (longestS < 3600 ? 'Zeit in min:s' : 'Zeit in h:min:s'),
  /** @param records their numbers in the picture */
  namedOf: (mark: string, records: string) => `${mark} (${records})`,
  numbered: (n: number, title: string) => `${n}  ${title}`,
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
