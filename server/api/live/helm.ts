import type { PageView } from '../../../shared/state.ts';

/** Knows which signals a helm page has shown. */
export interface Helm {
  /** Starts to collect; to be closed. */
  listen(): Ear;
  /** Why nobody at the helm has seen a signal, in words. */
  why(): string;
}

export interface Ear {
  /** As soon as a helm page has shown that number since `listen`: its name; undefined when none has within `limitMs`. */
  hears(number: number, limitMs: number): Promise<{ by: string } | undefined>;
  close(): void;
}

export type HelmPage = Pick<PageView, 'visible' | 'name'> & { mayAnswer: boolean };

/** `pages`: the weigh pages that are open now. */
export function createHelm(pages: () => HelmPage[]): Helm & { shown(number: number, by: string): void } {
  const ears = new Set<(number: number, by: string) => void>();

  function listen(): Ear {
    const heard = new Map<number, string>();
    let awaited: { number: number; resolve: (shown: { by: string } | undefined) => void } | undefined;
    let timer: NodeJS.Timeout | undefined;
    const ear = (number: number, by: string) => {
      if (!heard.has(number)) heard.set(number, by);
      if (awaited?.number === number) awaited.resolve({ by });
    };
    ears.add(ear);
    return {
      hears: (number, limitMs) =>
        new Promise((resolve) => {
          const by = heard.get(number);
          if (by !== undefined) return resolve({ by });
          awaited = { number, resolve };
          timer = setTimeout(() => resolve(undefined), limitMs);
        }),
      close() {
        clearTimeout(timer);
        ears.delete(ear);
      },
    };
  }

  function why(): string {
    const open = pages();
    if (open.length === 0) return 'No weigh page is open on any device.';
    const bearers = open.filter((page) => page.mayAnswer);
    if (bearers.length === 0) return 'The weigh page that is open cannot answer: its device may only look.';
    const names = bearers.map(({ name }) => name || 'a device without name').join(', ');
    return bearers.some((page) => page.visible)
      ? `A weigh page is open on ${names}, but has not shown it: its link may be slow or lost.`
      : `A weigh page is open on ${names}, but not in view: that screen is off or shows something else.`;
  }

  return {
    listen,
    why,
    shown(number, by) {
      for (const ear of ears) ear(number, by);
    },
  };
}
