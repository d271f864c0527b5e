import { PAGE as DE } from './de/page.ts';
import { PAGE as EN } from './en/page.ts';
import { PAGE as ES } from './es/page.ts';
import { PAGE as FR } from './fr/page.ts';

/** What index.html itself says, by language: put into it when it is built, since it speaks without any program. */
export const INDEX_WORDS = { en: EN, de: DE, es: ES, fr: FR };
