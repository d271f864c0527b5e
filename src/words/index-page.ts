import { PAGE } from './en/page.ts';

/** What index.html itself says, by language: put into it when it is built, since it speaks without any program. */
export const INDEX_WORDS = { en: PAGE };
