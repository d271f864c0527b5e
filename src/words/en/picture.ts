/** Words of pictures of a record. */
export const PICTURE = {
  rated: 'Rated',
  ceiling: 'Ceiling',
  working: 'Working',
  floor: 'Hold floor',
  seat: 'Seat',
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
