import { call, type Outcome } from '../../commands.ts';

/** As long as the slowest output is given to fail, twice over. */
const HORN_LIMIT_MS = 30_000;

/** Every way out for alerts does for a moment what it would do in an alarm; trouble when one of them does not. */
export async function testHorn(): Promise<Outcome> {
  const { trouble, answer } = await call('POST', '/horn/test', {}, HORN_LIMIT_MS);
  if (trouble !== undefined) return trouble;
  const { outputs = [] } = (answer ?? {}) as { outputs?: { id: string; ok: boolean; detail: string }[] };
  const failed = outputs.filter(({ ok }) => !ok).map(({ id, detail }) => `${id}: ${detail}`);
  return failed.length === 0 ? undefined : failed.join('. ');
}
