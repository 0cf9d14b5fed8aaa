/** The last messages, by number, for pages that come back. Numbers follow each other without a gap. */
export function createRing(capacity: number, first: number) {
  const texts: string[] = [];
  let latest = first;
  return {
    latest: () => latest,
    push(text: string): void {
      latest++;
      texts[latest % capacity] = text;
    },
    /** Every message after number `since`; undefined when some of them are forgotten or the number was never given. */
    after(since: number): string[] | undefined {
      const missed = latest - since;
      if (!(missed >= 0 && missed <= Math.min(capacity, latest - first))) return undefined;
      return Array.from({ length: missed }, (_, index) => texts[(since + 1 + index) % capacity]!);
    },
  };
}
