/** How a text is put for its reader: its language and its decimal mark. */
export interface Wording {
  /** A language of the catalogue, as its tag: 'en'. Which there are is the catalogue's to know. */
  readonly language: string;
  readonly decimal: 'point' | 'comma';
}
