import { loadCatalogue } from '../catalogue.ts';
import { PLAIN_WORDING } from './plain.ts';

/** What stands on the screens and papers of a reader of English. */
export const english = await loadCatalogue(PLAIN_WORDING);
