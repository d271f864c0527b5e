import { createMemo, For, Index, Show } from 'solid-js';
import { AlarmShape } from '../../../widgets/AlarmShape.tsx';
import { fitBlock } from '../../../widgets/fit.ts';
import { Key } from '../../../widgets/Key.tsx';
import { alarmLine, alarmTitle } from '../../../words/alarm-titles.ts';
import { LIST } from '../../../words/checks.ts';
import { FACE } from '../../../words/face.ts';
import { duration } from '../../../words/format.ts';
import { LIVE } from '../../../words/live.ts';
import { STAGE_KEY, VERBS } from '../../../words/orders.ts';
import { SUPPLY } from '../../../words/supply.ts';
import { UI } from '../../../words/ui.ts';
import { useServices } from '../../context.ts';
import type { Actions } from '../actions.ts';
import { type AnswerCode, answersOf } from '../answers.ts';
import { dueItems } from '../checks-open.ts';
import type { Face } from '../face.ts';
import { type Layout, orderRect } from '../layout.ts';
import type { More } from '../more/state.ts';
import { place } from '../place.ts';
import { mixingWaits, zeroToBar } from '../scene.ts';
import { AlarmBlock } from './AlarmBlock.tsx';
import { Plate } from './Plate.tsx';
import { instructionLayout } from './sizes.ts';

/** After a change of stage the key waits for longer than others: what it begins is not taken back, ms. */
const STAGE_REST_MS = 1200;

/** Between two answers, px (live.css, .order-row). */
const ROW_GAP = 10;

const ANSWER: Record<AnswerCode, { readonly text: string; readonly testId: string }> = {
  checklist: { text: LIST.open, testId: 'to-checklist' },
  sound: { text: FACE.testSound, testId: 'to-sound' },
  warm: { text: FACE.warm, testId: 'to-warm' },
  mixed: { text: STAGE_KEY.mixed, testId: 'mixed' },
  hard: { text: STAGE_KEY.hard, testId: 'answer-hard' },
  'not-hard': { text: STAGE_KEY['not-hard'], testId: 'answer-soft' },
  'vent-open': { text: STAGE_KEY['vent-open'], testId: 'vent-open' },
  'slow-valve': { text: SUPPLY.slowValve, testId: 'supply-slow' },
  'packer-on': { text: SUPPLY.packerOn, testId: 'supply-packer' },
  'air-test': { text: STAGE_KEY['air-test'], testId: 'to-air-test' },
  'air-again': { text: STAGE_KEY['air-again'], testId: 'air-again' },
  'air-again-probed': { text: STAGE_KEY['air-again-probed'], testId: 'air-again-probed' },
  'air-not-held': { text: STAGE_KEY['air-not-held'], testId: 'air-not-held' },
};

/** What a fast fall may be, each with a key of its own. */
const FALL_ANSWERS = ['let-down', 'loss'] as const;
const FALL_ANSWER = { 'let-down': LIVE.answerLetDown, loss: LIVE.answerLoss };

/**
 * One instruction, one action; an alarm takes the place of the instruction, never of the key. No key moves whatever is
 * shown, and acknowledge stands where only text stood.
 */
export function OrderZone(props: { face: Face; layout: Layout; actions: Actions; more: More }) {
  const app = useServices();
  const { live } = app;
  const stage = () => props.face.alarms();
  const zone = () => orderRect(props.layout, stage().form);
  const within = (r: Parameters<typeof place>[0]) => place(r, zone());
  const scene = () => props.face.scene();
  const orderOf = (a: ReturnType<typeof stage>['block']) =>
    a === null
      ? null
      : VERBS[a.alarm](a, { ...scene().view, zeroToBar: zeroToBar(scene().view) }, app.units());
  const blockOrder = createMemo(() => orderOf(stage().block));
  const plateSentence = createMemo(() => orderOf(stage().plate)?.sentence ?? '');
  const asks = () => stage().block?.alarm === 'fast-fall' && scene().view.question !== null;

  const instruction = () => props.face.instruction();
  const answers = createMemo(() => answersOf(scene(), props.face.instructed()), [], {
    equals: (a, b) => JSON.stringify(a) === JSON.stringify(b),
  });
  // One that was acknowledged gives way to what the crew can say: its shape stands in the strip.
  const plate = () => {
    const p = stage().plate;
    return p === null || (stage().ack !== p && answers().length > 0) ? null : p;
  };
  const others = () => {
    const p = stage().plate;
    return p === null || p === plate() ? stage().others : [p, ...stage().others];
  };
  const rowUsed = createMemo(() => plate() !== null || answers().length > 0);
  const sizes = createMemo(() =>
    instructionLayout(props.layout, instruction().say, instruction().besides, rowUsed()),
  );

  /** Items of the checklist that wait at this stage. */
  const due = createMemo(() => dueItems(scene().checks, scene().view.stage, mixingWaits(scene())).length);

  const acknowledge = () => {
    const a = stage().ack;
    if (a !== null) props.actions.acknowledge([a]);
  };
  const answerQuestion = (answer: (typeof FALL_ANSWERS)[number]) =>
    props.actions.command({ c: 'answer', question: 'let-down-or-loss', answer });

  const spokenAlarms = createMemo(() =>
    [stage().block, stage().plate, ...stage().others]
      .flatMap((a) => (a?.state === 'unacknowledged' ? [`${alarmLine(a)}.`] : []))
      .join(' '),
  );
  // By what is asked for, not by its numbers: a count is not read out.
  const code = createMemo(() => `${props.face.instructed().stage} ${props.face.instructed().code}`);
  const spoken = createMemo(() => (code() === '' ? '' : instruction().say));
  const spokenOnce = createMemo<{ code: string; say: string }>(
    (before) => (before.code === code() ? before : { code: code(), say: spoken() }),
    { code: '', say: '' },
  );

  const key = () => props.face.key();
  const label = createMemo(() => props.actions.label(key()));
  /** Beside it on its key an answer that is held has the word that says so: both are whole. */
  const answerPx = ({ code, hold }: ReturnType<typeof answers>[number]) => {
    const { row, small } = props.layout;
    const n = answers().length;
    return fitBlock(
      ANSWER[code].text,
      { width: (row.w - ROW_GAP * (n - 1)) / n - 26, height: row.h - 12 - (hold ? (small ? 15 : 17) : 0) },
      { most: small ? 16 : 20, least: 10, weight: 700, lineEm: 1.15 },
    );
  };
  /** Both answers in one size: one is no more likely than the other. Their words are whole in half of a small key's place. */
  const questionPx = () => {
    const { ack, small } = props.layout;
    const room = { width: (ack.w - ROW_GAP) / 2 - (small ? 6 : 14), height: ack.h - 12 };
    const size = { most: small ? 16 : 20, least: 9, weight: 700, lineEm: 1.15 } as const;
    return Math.min(...FALL_ANSWERS.map((answer) => fitBlock(FALL_ANSWER[answer], room, size)));
  };
  const stageNow = createMemo(() => live.view()?.stage ?? '');
  const ackText = () => {
    const { ack, block } = stage();
    return ack !== null && ack !== block ? FACE.ackNext(alarmTitle(ack)) : UI.acknowledge;
  };
  const ackPx = () =>
    fitBlock(
      ackText(),
      { width: props.layout.ack.w - 20, height: props.layout.ack.h - 12 },
      { most: props.layout.small ? 18 : 24, least: 11, weight: 700 },
    );
  const keyPx = () =>
    fitBlock(
      label(),
      { width: props.layout.key.w - 24, height: props.layout.key.h - (key().look === 'hold' ? 30 : 14) },
      { most: props.layout.small ? 19 : 26, least: 11, weight: 700 },
    );

  const keyStyle = createMemo(() => ({ ...within(props.layout.key), 'font-size': `${keyPx()}px` }));
  const ackStyle = createMemo(() => ({ ...within(props.layout.ack), 'font-size': `${ackPx()}px` }));

  return (
    <section
      class="order"
      classList={{
        [stage().form ?? 'calm']: true,
        waiting: stage().block?.state === 'unacknowledged',
      }}
      style={place(zone())}
      tabIndex={-1}
      aria-label={FACE.orderLabel}
      data-testid="zone-order"
      data-form={stage().form ?? 'none'}
    >
      <div class="visually-hidden" role="alert" aria-live="assertive">
        {spokenAlarms()}
      </div>
      <div class="visually-hidden" role="status" aria-live="polite">
        {stage().block === null ? spokenOnce().say : ''}
      </div>
      <Show when={stage().block}>
        {(block) => (
          <Show when={blockOrder()}>
            {(order) => (
              <AlarmBlock
                alarm={block()}
                form={stage().form ?? 'high'}
                order={order()}
                layout={props.layout}
                others={stage().others}
                more={stage().ack === null}
              />
            )}
          </Show>
        )}
      </Show>
      <Show when={stage().block === null}>
        <div
          class="instruction"
          data-testid="instruction"
          data-stage={props.face.instructed().stage}
          data-code={props.face.instructed().code}
          classList={{ now: props.face.instructed().code === 'shut-now', 'with-row': rowUsed() }}
          style={within(props.layout.text)}
        >
          <p class="say" data-testid="say" style={{ 'font-size': `${sizes().sayPx}px` }}>
            {instruction().say}
          </p>
          <p
            class="besides"
            classList={{ 'visually-hidden': rowUsed() }}
            style={{ 'font-size': `${sizes().besidesPx}px` }}
          >
            {instruction().besides}
          </p>
        </div>
        <div
          class="order-row"
          style={within(plate() === null ? props.layout.row : props.layout.plate)}
          classList={{ empty: !rowUsed() }}
        >
          <Show
            when={plate()}
            fallback={
              <Index each={answers()}>
                {(a) => (
                  <Key
                    class="answer"
                    means={a().code}
                    hold={a().hold}
                    fresh
                    aria-pressed={a().said}
                    style={{ 'font-size': `${answerPx(a())}px` }}
                    data-testid={ANSWER[a().code].testId}
                    onPress={() => props.actions.answer(a().code)}
                  >
                    <span>{ANSWER[a().code].text}</span>
                    <Show when={a().hold}>
                      <small>{FACE.hold}</small>
                    </Show>
                  </Key>
                )}
              </Index>
            }
          >
            {(shown) => (
              <Plate
                alarm={shown()}
                sentence={plateSentence()}
                layout={props.layout}
                onAcknowledge={() => props.actions.acknowledge([shown()])}
              />
            )}
          </Show>
        </div>
      </Show>
      <ul class="order-others visually-hidden" aria-label={FACE.others}>
        <Index each={others()}>
          {(a) => (
            <li data-testid={`alarm-${a().alarm}`} data-state={a().state} data-priority={a().priority}>
              <AlarmShape priority={a().priority} size={14} />
              <span class="alarm-text">{orderOf(a())?.sentence}</span>
            </li>
          )}
        </Index>
      </ul>
      <Show when={stage().block !== null && asks()}>
        <div
          class="question"
          style={{ ...within(props.layout.ack), 'font-size': `${questionPx()}px` }}
          data-testid="question"
        >
          <For each={FALL_ANSWERS}>
            {(answer) => (
              <Key
                class="ack"
                means={answer}
                fresh
                data-testid={`answer-${answer}`}
                onPress={() => answerQuestion(answer)}
              >
                {FALL_ANSWER[answer]}
              </Key>
            )}
          </For>
        </div>
      </Show>
      <Show when={stage().block !== null && !asks() && stage().ack} keyed={false}>
        {(ack) => (
          <Key
            class="ack"
            fresh
            means={`${ack().alarm} ${ack().occurrence} ${ack().state}`}
            data-testid="ack"
            data-alarm={ack().alarm}
            style={ackStyle()}
            onPress={acknowledge}
          >
            {ackText()}
          </Key>
        )}
      </Show>
      <Show when={stage().block !== null && !asks() && stage().ack === null}>
        <p class="ack-said" style={within(props.layout.ack)} data-testid="acknowledged">
          {FACE.acknowledged(duration((scene().view.tUs - (stage().block?.sinceUs ?? 0)) / 1e6))}
        </p>
      </Show>
      <Show when={stage().block === null || stage().ack === null}>
        <button
          type="button"
          class="key more-key"
          style={within(props.layout.more)}
          data-testid="more"
          aria-expanded={props.more.tab() !== null}
          onClick={() =>
            props.more.tab() === null
              ? props.more.open(due() > 0 ? 'checklist' : 'numbers')
              : props.more.close()
          }
        >
          {props.more.tab() === null ? FACE.more : FACE.close}
          <Show when={props.more.tab() === null && due() > 0}>
            <small data-testid="more-due">
              {props.layout.small ? LIST.dueShort(due()) : LIST.due(due())}
            </small>
          </Show>
        </button>
      </Show>
      <Key
        class="stage-key"
        classList={{ ready: key().look === 'ready', demoted: stage().block !== null }}
        means={`${key().does} ${key().to}`}
        hold={key().look === 'hold'}
        restMs={STAGE_REST_MS}
        style={keyStyle()}
        data-testid="stage-key"
        data-does={key().does}
        data-to={key().to ?? ''}
        data-look={key().look}
        data-stage={stageNow()}
        onPress={() => props.actions.press(key())}
      >
        <span>{label()}</span>
        <Show when={key().look === 'hold' && key().does !== 'stages'}>
          <small>{FACE.hold}</small>
        </Show>
      </Key>
    </section>
  );
}
