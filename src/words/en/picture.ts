/** Words of pictures of a record. */
export const PICTURE = {
  rated: 'rated',
  ceiling: 'ceiling',
  floor: 'hold floor',
  dated: (title: string, date: string) => `${title}, ${date} UTC`,
};
