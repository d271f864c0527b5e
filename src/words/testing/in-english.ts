import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { chooseWords, loadWords } from '../chosen.ts';

// Components take their words when they are loaded: they are there before any test file is.
await chooseWords(PLAIN_WORDING);
await loadWords('further');
