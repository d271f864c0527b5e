import { describe, expect, it } from 'vitest';
import { loadCatalogue } from './catalogue.ts';
import { PSEUDO, untranslated, WITH_PSEUDO } from './testing/pseudo.ts';

describe('a language of another folder', () => {
  it('is whole: its own texts everywhere, numbers with its decimal mark', async () => {
    const words = await loadCatalogue({ language: PSEUDO, decimal: 'comma' }, WITH_PSEUDO);
    expect(words.ui.UI.save).toBe('⟦Save⟧');
    expect(words.alarms.alarmText('ceiling', { bar: 1.5 })).toMatch(/^⟦Pressure 1,50\u00a0bar .*⟧$/);
    expect(words.events.eventText({ tUs: 0, e: 'end' })).toBe('⟦End of the run⟧');
    expect(words.commands.FAULT.emptyFile).toBe('⟦the file is empty⟧');
  });

  it('that is not here is refused, whatever its name', async () => {
    for (const language of ['qps', 'xx', 'constructor', '__proto__', ''])
      await expect(loadCatalogue({ language, decimal: 'point' })).rejects.toThrow(RangeError);
  });

  it('what nobody translated is found beside what was', () => {
    expect(untranslated('⟦Peak ⟦of⟧ run⟧ 1,50 bar (0:30)')).toBe('');
    expect(untranslated('. Throttle.⟧')).toBe('');
    expect(untranslated('. Throttle.⟧ at once')).toBe('at once');
    expect(untranslated('⟦Peak⟧ about 1,50 bar')).toBe('about');
    expect(untranslated('⟦Job⟧: Crack at 12 m', ['Crack at 12 m'])).toBe('');
  });
});
