/** Words of pictures of a record. */
export const PICTURE = {
  rated: 'Rated',
  ceiling: 'Ceiling',
  working: 'Working',
  floor: 'Hold floor',
  seat: 'Seat',
  sensorEnd: 'Sensor’s end',
  /** @param longestS the latest time that the axis shows, s */
  time: (longestS: number): string => (longestS < 3600 ? 'time in min:s' : 'time in h:min:s'),
  /** @param records their numbers in the picture */
  namedOf: (mark: string, records: string) => `${mark} (${records})`,
  numbered: (n: number, title: string) => `${n}  ${title}`,
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
