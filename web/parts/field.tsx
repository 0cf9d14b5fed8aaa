interface Props {
  label: string;
  value: string;
  onChange: (value: string) => void;
  hint?: string;
  /** Letters and signs are typed, so the phone shows its whole keyboard. */
  text?: boolean;
}

/** One labelled input. Numbers too are text here: number inputs swallow what they do not understand without a word. */
export function Field({ label, value, onChange, hint, text }: Props) {
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        inputMode={text ? 'text' : 'decimal'}
        autocomplete="off"
        value={value}
        onInput={(event) => onChange(event.currentTarget.value)}
      />
      {hint && <small>{hint}</small>}
    </label>
  );
}
