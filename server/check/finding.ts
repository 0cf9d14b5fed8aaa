/** What was looked at. */
export type Looked = 'config' | 'inputs' | 'disk' | 'clock' | 'addresses' | 'certificate' | 'horn';

/** `look`: no fault, but somebody should know. */
export interface Finding {
  what: Looked;
  state: 'good' | 'look' | 'fault';
  text: string;
  /** What to do about it. */
  cure?: string;
}

export const good = (what: Looked, text: string): Finding => ({ what, state: 'good', text });
export const look = (what: Looked, text: string, cure: string): Finding => ({
  what,
  state: 'look',
  text,
  cure,
});
export const fault = (what: Looked, text: string, cure: string): Finding => ({
  what,
  state: 'fault',
  text,
  cure,
});
