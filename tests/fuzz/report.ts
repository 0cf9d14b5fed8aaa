import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Where finds are kept: each is run again by tests/server/fuzz-corpus.test.ts for ever. */
const CORPUS = 'tests/fuzz/corpus';
const MOST_KEPT = 20;
/** A long campaign says now and then how far it is. */
const PROGRESS_MS = 30_000;

export interface Campaign {
  name: string;
  count: number;
  /** How often each outcome came, so that it is seen that every part was reached. */
  outcomes: Record<string, number>;
  finds: string[];
  seconds: number;
}

/** Counts outcomes and keeps finds. `kind` is the folder of the corpus. */
export function createCampaign(name: string, kind: string) {
  const begin = performance.now();
  const outcomes: Record<string, number> = {};
  const finds: string[] = [];
  let count = 0;
  let told = begin;
  return {
    tried(outcome: string): void {
      count++;
      if (count % 64 === 0 && performance.now() - told > PROGRESS_MS) {
        told = performance.now();
        console.log(`… ${name}: ${count.toLocaleString('en')}, ${finds.length} finds`);
      }
      outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
    },
    /** Something that must not happen, and what makes it happen again. */
    found(what: string, reproduce: unknown): void {
      finds.push(what);
      if (finds.length > MOST_KEPT) return;
      mkdirSync(join(CORPUS, kind), { recursive: true });
      const file = join(CORPUS, kind, `${name.replace(/\W+/g, '-')}-${Date.now()}-${finds.length}.json`);
      writeFileSync(file, `${JSON.stringify({ what, reproduce }, null, 1)}\n`);
      console.log(`FOUND ${what.slice(0, 300)}\n  kept in ${file}`);
    },
    done(): Campaign {
      return { name, count, outcomes, finds, seconds: (performance.now() - begin) / 1000 };
    },
  };
}

export function print({ name, count, outcomes, finds, seconds }: Campaign): void {
  const parts = Object.entries(outcomes)
    .sort(([, a], [, b]) => b - a)
    .slice(0, 14)
    .map(([outcome, times]) => `${outcome} ${times}`);
  console.log(
    `${name}: ${count.toLocaleString('en')} in ${seconds.toFixed(0)} s, ${finds.length} finds\n  ${parts.join(', ')}`,
  );
}
