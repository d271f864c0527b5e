import { chooseWords, loadWords } from '../chosen.ts';
import { PLAIN_WORDING } from './plain.ts';

// Components take their words when they are loaded: they are there before any test file is.
await chooseWords(PLAIN_WORDING);
await loadWords('further');
