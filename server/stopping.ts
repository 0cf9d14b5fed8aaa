/** What cannot be ended within this is left behind, milliseconds. */
const PATIENCE_MS = 5000;

/** Ends one thing after the other; one that fails or hangs does not keep the others from being ended. */
export async function stopInOrder(
  steps: readonly (() => Promise<unknown> | undefined)[],
  failed: (error: unknown) => void,
): Promise<void> {
  for (const step of steps) {
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new Error('it could not be ended in time')), PATIENCE_MS);
    });
    try {
      await Promise.race([step(), late]);
    } catch (error) {
      failed(error);
    } finally {
      clearTimeout(timer);
    }
  }
}
