import { type PageMessage, pageMessage } from '../../../shared/messages.ts';
import { faultsOf, inWords } from '../faults.ts';
import { Problem } from '../problem.ts';

export type BadFrame = 'binary' | 'not-json' | 'not-valid' | 'too-many';
export type Frame = { ok: true; message: PageMessage } | { ok: false; reason: BadFrame; problem: Problem };

/** Reads what a page has sent; never throws. */
export function readFrame(data: string, binary: boolean): Frame {
  if (binary) return bad('binary', new Problem('not-valid', `A frame must be text. ${ALLOWED}`));
  let told: unknown;
  try {
    told = JSON.parse(data);
  } catch (error) {
    const why = (error as Error).message.slice(0, 120);
    return bad('not-json', new Problem('not-json', `The frame cannot be read as JSON: ${why}. ${ALLOWED}`));
  }
  const checked = pageMessage.safeParse(told);
  if (checked.success) return { ok: true, message: checked.data };
  const errors = faultsOf('frame', checked.error.issues).slice(0, 10);
  return bad('not-valid', new Problem('not-valid', `${inWords(errors)}. ${ALLOWED}`, { errors }));
}

export const tooMany = (): Frame =>
  bad('too-many', new Problem('too-many', `A page sends one pulse every 2 s. ${ALLOWED}`));

const ALLOWED =
  'Allowed: {"type":"pulse","visible":true|false,"sound":true|false,"name":"…"} (further members: see the API) or {"type":"shown","signal":N}.';

function bad(reason: BadFrame, problem: Problem): Frame {
  return { ok: false, reason, problem };
}
