/** A fingerprint as people compare it: groups of four, selectable as a whole. */
export function Fingerprint(props: { label: string; value: string; testId?: string }) {
  return (
    <p class="fingerprint">
      <span class="label">{props.label}</span>
      <code data-testid={props.testId}>{props.value.toUpperCase().replace(/(.{4})(?=.)/g, '$1 ')}</code>
    </p>
  );
}
