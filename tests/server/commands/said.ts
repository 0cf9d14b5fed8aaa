import { vi } from 'vitest';

/** What a command writes to stdout, and its exit code. */
export async function said(
  run: (args: string[]) => Promise<number>,
  args: string[],
): Promise<{ code: number; out: string }> {
  let out = '';
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += text;
    return true;
  });
  try {
    const code = await run(args);
    return { code, out };
  } finally {
    spy.mockRestore();
  }
}
