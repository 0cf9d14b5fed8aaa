import type { OutputView } from '../../shared/outputs.ts';
import { createBus, type Obey } from './bus.ts';
import { escalate, type Unanswered } from './escalation.ts';
import { createHook } from './hook.ts';
import type { Health, Moment, Output } from './output.ts';
import { within } from './output.ts';
import type { OutputConfig } from './outputs.ts';
import { createSerialCarrier } from './serial.ts';
import { createUdpCarrier } from './udp.ts';
import { createWebhook } from './webhook.ts';

/** The horn: alerts leave the boat's computer, whatever page is open. */
export interface Raise {
  /** To be called a few times a second; never waits. `phoneWakes`: an armed phone would wake somebody now. */
  look(moment: Moment, phoneWakes: boolean): void;
  /** Tries every output as in an alarm, all at once; each tells what came of it. */
  test(by: string): Promise<{ id: string; ok: boolean; detail: string }[]>;
  views(): OutputView[];
  /** Ends what sounds and closes what is open. */
  stop(): Promise<void>;
}

export interface RaisePorts {
  boat: string;
  /** UNIX seconds on the engine's timeline. */
  now(): number;
  /** An output began to fail, or works again. */
  fault(id: string, raised: boolean, text: string): void;
  obey: Obey;
  /** The views are different now. */
  changed(): void;
  remark(text: string): void;
  /** Outputs whose fault is still held from before a restart: their first success ends it. */
  failing: readonly string[];
}

/** The longest work of an output that ends by itself, twice over: a test that is not done by then hangs. */
const TEST_MS = 300_000;
const STOP_MS = 15_000;

interface Kept {
  config: OutputConfig;
  output: Output;
  view: Omit<OutputView, 'on'>;
  wasOn: boolean;
}

export function createRaise(outputs: readonly OutputConfig[], ports: RaisePorts): Raise {
  let unanswered: Unanswered = {};
  let moment: Moment = { alerts: [], at: ports.now(), clockOffset: 0 };
  let testing: Promise<{ id: string; ok: boolean; detail: string }[]> | undefined;
  const kept = outputs.map(keep);

  function keep(config: OutputConfig): Kept {
    const { id, kind } = config;
    let view: Kept['view'];
    const health: Health = {
      ok() {
        view.lastOk = ports.now();
        if (view.failing) {
          view.failing = false;
          ports.fault(id, false, `The horn "${id}" works again.`);
        }
        ports.changed();
      },
      failed(why) {
        view.lastFailure = { at: ports.now(), why };
        if (!view.failing) {
          view.failing = true;
          ports.fault(id, true, `The horn "${id}" fails: ${why}. Alerts do not get out by it.`);
        }
        ports.changed();
      },
    };
    const output = create(config, health, ports);
    view = { id, kind, what: output.what, failing: ports.failing.includes(id) };
    return { config, output, view, wasOn: false };
  }

  for (const { output } of kept) output.start();

  async function testAll(by: string) {
    const done = await Promise.all(
      kept.map(async ({ output, view }) => {
        const { ok, detail } = await within(TEST_MS, output.test(moment), 'it did not end').then(
          (words) => ({ ok: true, detail: words }),
          (error: Error) => ({ ok: false, detail: error.message }),
        );
        view.lastTest = { at: ports.now(), by, ok, detail };
        return { id: view.id, ok, detail };
      }),
    );
    ports.changed();
    return done;
  }

  return {
    look(now, phoneWakes) {
      moment = now;
      const rules = kept.map(({ config }) => config);
      const next = escalate(unanswered, now.alerts, now.at, phoneWakes, rules);
      unanswered = next.unanswered;
      for (const one of kept) {
        const wanted = next.wanted[one.config.id]!;
        try {
          one.output.show(wanted, now);
        } catch (error) {
          // One output must not take the others with it.
          ports.remark(`${one.config.id}: ${(error as Error).message}`);
        }
        const isOn = one.output.on();
        if (isOn === one.wasOn) continue;
        one.wasOn = isOn;
        ports.changed();
      }
    },
    test(by) {
      // A second hand on the button gets the answer of the first.
      testing ??= testAll(by).finally(() => {
        testing = undefined;
      });
      return testing;
    },
    views: () => kept.map(({ output, view }) => ({ ...view, on: output.on() })),
    async stop() {
      await Promise.all(
        kept.map(({ output }) => within(STOP_MS, output.stop(), 'hangs').catch(() => undefined)),
      );
    },
  };
}

function create(config: OutputConfig, health: Health, { boat, obey, remark }: RaisePorts): Output {
  switch (config.kind) {
    case 'command':
      return createHook(config, boat, health);
    case 'webhook':
      return createWebhook(config, boat, health);
    case 'serial':
      return createBus(config, createSerialCarrier(config, health), { health, obey, remark });
    case 'udp':
      return createBus(config, createUdpCarrier(config, health), { health, obey, remark });
  }
}
