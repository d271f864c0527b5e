import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { loadCatalogue } from '../catalogue.ts';

/** What stands on the screens and papers of a reader of English. */
export const english = await loadCatalogue(PLAIN_WORDING);
