import type { Sinks } from '../../../server/intake/input.ts';

/** Sinks that remember, and let a test wait for what it expects. */
export interface Heard extends Sinks {
  lines: { id: string; text: string }[];
  links: { id: string; up: boolean; detail: string }[];
  discarded: number;
  texts(): string[];
  /** Resolves when `condition` holds; rejects with what was heard when it does not come to hold in time. */
  until(condition: (heard: Heard) => boolean): Promise<void>;
}

export function listener(): Heard {
  const waiting: { condition: (heard: Heard) => boolean; done: () => void }[] = [];
  const check = () => {
    for (const one of waiting.slice()) {
      if (!one.condition(heard)) continue;
      waiting.splice(waiting.indexOf(one), 1);
      one.done();
    }
  };
  const heard: Heard = {
    lines: [],
    links: [],
    discarded: 0,
    texts: () => heard.lines.map(({ text }) => text),
    line(id, text) {
      heard.lines.push({ id, text });
      check();
    },
    link(id, up, detail) {
      heard.links.push({ id, up, detail });
      check();
    },
    overlong(_id, bytes) {
      heard.discarded += bytes;
      check();
    },
    until(condition) {
      return new Promise((resolve, reject) => {
        const patience = setTimeout(
          () =>
            reject(
              new Error(
                `never came: ${condition}; heard ${JSON.stringify({ lines: heard.lines.slice(-20), links: heard.links })}`,
              ),
            ),
          20_000,
        );
        waiting.push({
          condition,
          done: () => {
            clearTimeout(patience);
            resolve();
          },
        });
        check();
      });
    },
  };
  return heard;
}
