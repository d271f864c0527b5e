import { CHECK_SAID } from '../job/checklist.ts';
import { ENTRIES, MOST_TEXT } from '../job/entries.ts';
import type { NumberBounds } from '../job/fields.ts';
import { ID } from '../job/id.ts';
import { ALARMS, LINE_ENDS, STAGES } from '../watch/codes.ts';
import { AIR_TEST_WORDS, type Command, SUPPLY_WORDS } from '../watch/inputs.ts';
import { EngineError } from './errors.ts';

/**
 * A command is logged for good, so it is looked over before it enters the log. Gives it back.
 * @throws EngineError 'bad-request'
 */
export function checkCommand(command: Command): Command {
  const bad = (what: string): never => {
    throw new EngineError('bad-request', `command ${String(command?.c)}: ${what}`);
  };
  const text = (value: unknown, what: string): void => {
    if (typeof value !== 'string' || value.length > MOST_TEXT)
      bad(`${what} is not a text of at most ${MOST_TEXT}`);
  };
  const number = (value: unknown, { lo, hi }: NumberBounds, what: string): void => {
    if (typeof value !== 'number' || !(value >= lo && value <= hi)) bad(`${what} is not ${lo} to ${hi}`);
  };
  const alarm = (value: unknown): void => {
    if (!(ALARMS as readonly unknown[]).includes(value)) bad('no such alarm');
  };
  switch (command?.c) {
    case 'acknowledge':
      alarm(command.alarm);
      if (!Number.isSafeInteger(command.occurrence) || command.occurrence < 1) bad('names no occurrence');
      break;
    case 'shelve':
      alarm(command.alarm);
      number(command.seconds, ENTRIES.shelvedS, 'seconds');
      text(command.reason, 'reason');
      break;
    case 'unshelve':
      alarm(command.alarm);
      break;
    case 'stage':
      if (!(STAGES as readonly unknown[]).includes(command.to)) bad('no such stage');
      if (command.reason !== undefined) text(command.reason, 'reason');
      break;
    case 'gauge':
      number(command.bar, ENTRIES.gaugeBar, 'bar');
      break;
    case 'warm-check':
      number(command.thermometerC, ENTRIES.thermometerC, 'thermometerC');
      break;
    case 'prove-supply':
      if (!(LINE_ENDS as readonly unknown[]).includes(command.end)) bad('no such end of the line');
      break;
    case 'supply':
      if (!(SUPPLY_WORDS as readonly unknown[]).includes(command.said)) bad('no such word');
      break;
    case 'air-test':
      if (!(AIR_TEST_WORDS as readonly unknown[]).includes(command.said)) bad('no such word');
      break;
    case 'override':
      text(command.what, 'what');
      text(command.reason, 'reason');
      break;
    case 'check':
      if (!ID.test(command.item)) bad('no such item');
      if (!(CHECK_SAID as readonly unknown[]).includes(command.how)) bad('no such answer');
      if (typeof command.safety !== 'boolean') bad('safety is no yes or no');
      text(command.said, 'said');
      text(command.text, 'text');
      text(command.by, 'by');
      if (command.how === 'passed' && command.text.trim() === '') bad('gives no reason');
      break;
    case 'operator':
      text(command.by, 'by');
      break;
    case 'note':
      text(command.text, 'text');
      break;
    case 'take-device':
      bad('comes with its Setup');
      break;
    case 'zero':
    case 'mixed':
    case 'vent':
    case 'answer':
    case 'witness':
      break;
    default:
      command satisfies never;
      bad('not known');
  }
  return command;
}
