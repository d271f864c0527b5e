import { Show } from 'solid-js';
import type { Plan } from '../../plan/setup.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { pressure } from '../../words/format.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import { inDrawer } from './drawers.ts';

/**
 * The sheet's main key: to the live page, or to what stands in its way. Nothing is blocked: who has mixed already goes live all
 * the same, and the live page says what is refused. On a phone it stays in sight, with the plan in one line.
 */
export function MainKey(props: {
  /** null: an entry is wrong. */
  plan: Plan | null;
  href: string;
  isRunning: boolean;
  onLeave(): void;
  onFirst(): void;
  onPlan(): void;
}) {
  const app = useServices();
  const refused = () => props.plan?.refusals.length ?? 0;
  const stands = () => props.plan === null || refused() > 0;
  const limits = () => props.plan?.setup.limits ?? null;
  const bar = (value: number) => pressure(value, app.units());
  return (
    <div class="main-key no-print">
      <button type="button" class="button plan-line" data-testid="to-plan" onClick={() => props.onPlan()}>
        <span>
          <Show when={limits()} fallback={props.plan === null ? SHEET.planNoneShort : SHEET.planGaugeShort}>
            {(l) => SHEET.planLine(bar(l().workingBar), bar(l().ceilingBar))}
          </Show>
        </span>
        <Show when={props.plan}>
          {(plan) => (
            <span class="small">
              {SHEET.ranks(refused(), inDrawer(plan(), 'look').length, inDrawer(plan(), 'unknown').length)}
            </span>
          )}
        </Show>
      </button>
      <Show
        when={stands() && !props.isRunning}
        fallback={
          <a
            class="button primary wide"
            data-testid="to-live"
            href={props.href}
            onClick={() => props.onLeave()}
          >
            {props.isRunning ? SHEET.backToLive : SHEET.toLive}
          </a>
        }
      >
        <button
          type="button"
          class="button primary wide"
          data-testid="to-refused"
          onClick={() => props.onFirst()}
        >
          <AlarmShape priority="high" size={24} />
          {props.plan === null ? SHEET.toWrong : SHEET.toRefused(refused())}
        </button>
      </Show>
    </div>
  );
}
