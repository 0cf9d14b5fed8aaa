/** Addresses remembered at most; a flood from more than these forgets the oldest, and takes no more memory. */
const REMEMBERED = 4096;

/** Counts by name within a window of so many milliseconds, which begins with a name's first count. */
export function createTally(windowMs: number) {
  const counts = new Map<string, { since: number; count: number }>();

  function current(name: string) {
    const found = counts.get(name);
    if (found && performance.now() - found.since < windowMs) return found;
    counts.delete(name);
    return undefined;
  }

  return {
    count: (name: string): number => current(name)?.count ?? 0,
    forget(name: string): void {
      counts.delete(name);
    },
    add(name: string): void {
      const found = current(name);
      if (found) {
        found.count++;
        return;
      }
      const oldest = counts.keys().next();
      if (counts.size >= REMEMBERED && !oldest.done) counts.delete(oldest.value);
      counts.set(name, { since: performance.now(), count: 1 });
    },
  };
}
