// First: nothing is drawn before it.
import './trusted.ts';
import { chooseWords } from '../words/chosen.ts';
import { safeLocale, wordingFor } from '../words/locale.ts';
import { keptPreferences } from './preferences.ts';

// The plots' library hands the browser's language to Intl as it comes, when it is loaded; a browser under a POSIX
// locale names one that Intl refuses, and no page with a plot would open.
if (safeLocale([navigator.language]) === null)
  Object.defineProperty(navigator, 'language', { value: 'en', configurable: true });

// Words come before everything that shows them: modules take theirs when they are evaluated.
const wording = wordingFor(keptPreferences(), navigator.languages);
document.documentElement.lang = wording.language;
void chooseWords(wording)
  .then(() => import('./start.tsx'))
  .then(({ start }) => start(wording));
