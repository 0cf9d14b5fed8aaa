import type { Fault, ProblemDetails } from '../../../shared/messages.ts';
import { words } from '../../words.ts';
import type { Faults } from './draft.ts';
import { FIELDS, type Key } from './fields.ts';

/** What the planner refused, put where a person can mend it. */
export interface Refusal {
  faults: Faults;
  /** What belongs to no field. */
  rest: string[];
}

const isKey = (name: string): name is Key => Object.hasOwn(FIELDS, name);

/** Members of the request whose name does not say which field they came from. */
const BELONGS: Record<string, Key> = { 'chain.massPerMetre': 'massPerMetre' };

export function refusalOf({ detail, errors = [] }: ProblemDetails): Refusal {
  const refusal: Refusal = { faults: {}, rest: [] };
  for (const fault of errors) {
    const { key, text } = placed(fault);
    if (key === undefined) refusal.rest.push(text);
    else refusal.faults[key] = refusal.faults[key] ? `${refusal.faults[key]} ${text}` : text;
  }
  if (errors.length === 0) refusal.rest.push(detail);
  return refusal;
}

/** The planner names the member first in its sentence; the crew reads the label of the field instead. */
function placed({ path, detail }: Fault): { key?: Key; text: string } {
  if (/^\S+ m of cable do not reach/.test(detail)) return { key: 'veer', text: detail };
  const first = detail.slice(0, detail.indexOf(' '));
  const name = path || first;
  const key = isKey(name) ? name : BELONGS[name];
  if (key === undefined) return { text: detail };
  const text = first === name ? `${words.planner.fields[key].label}${detail.slice(name.length)}` : detail;
  return { key, text };
}
