import { HELP } from '../../words/help.ts';

/** What help is there for. */
export type HelpCode = keyof typeof HELP;

export function HelpText(props: { about: HelpCode }) {
  return <p>{HELP[props.about]}</p>;
}
