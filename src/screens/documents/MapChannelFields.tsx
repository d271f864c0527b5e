import type { JSX } from 'solid-js';
import { type Quantity, UNIT_OF } from '../../job/codes.ts';
import { blankMeasure } from '../../job/reading-map.ts';
import { QUANTITY } from '../../words/fields.ts';
import { READING_UNIT, REGISTERS, SUGGESTED_PLACE } from '../../words/maps.ts';
import { FormChoice, FormNumber } from './FormFields.tsx';
import type { Form } from './form.ts';

type MapForm = Form<'registers'> | Form<'columns'>;

/** What a value measures and in what it is told: the same for a register and for a column. */
export function MapChannelFields(props: { readonly form: MapForm; readonly row: number }): JSX.Element {
  // The members of both kinds are the same here, which the compiler does not see through the union.
  const form = () => props.form as Form<'registers'>;
  const at = <M extends string>(member: M) => `channels.${props.row}.${member}` as const;
  const channel = () => props.form.draft().channels[props.row];
  const quantity = (): Quantity => channel()?.quantity ?? 'pressure';
  const change = (part: object) =>
    form().write(
      'channels',
      form()
        .draft()
        .channels.map((c, i) => (i === props.row ? { ...c, ...part } : c)),
    );
  return (
    <>
      <FormChoice
        form={form()}
        at={at('quantity')}
        label={REGISTERS.quantity}
        words={QUANTITY}
        onValue={(q) => change(blankMeasure(q))}
      />
      <FormChoice form={form()} at={at('place')} label={REGISTERS.place} words={SUGGESTED_PLACE} />
      <FormChoice
        form={form()}
        at={at('unit')}
        label={REGISTERS.unit}
        words={READING_UNIT}
        onValue={(unit) =>
          change(UNIT_OF[unit] === quantity() ? { unit } : { ...blankMeasure(UNIT_OF[unit]), unit })
        }
      />
      <FormNumber form={form()} at={at('scale')} label={REGISTERS.scale} hint={REGISTERS.scaleHint} />
      <FormNumber form={form()} at={at('offset')} label={REGISTERS.offset} />
      <FormNumber form={form()} at={at('lo')} label={REGISTERS.lo} told={{ kind: quantity() }} />
      <FormNumber form={form()} at={at('hi')} label={REGISTERS.hi} told={{ kind: quantity() }} />
    </>
  );
}
