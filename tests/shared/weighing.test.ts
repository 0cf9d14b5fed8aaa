import { describe, expect, test } from 'vitest';
import type { Command } from '../../shared/commands.ts';
import { createEngine, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { snapshot } from '../../shared/snapshot.ts';
import { START, settings } from './weigh/help.ts';

/** Weighing through the whole engine, on invented sentences: orders, events, undo. No physics is proven here. */
const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
const clock = (at: number) => {
  const day = at % 86_400;
  return `${two(day / 3600)}${two((day % 3600) / 60)}${two(day % 60)}`;
};

class Helm {
  engine = createEngine(settings());
  events: Event[] = [];
  at = START;

  line(text: string): void {
    this.take({ kind: 'line', at: this.at, source: 'udp1', text: withChecksum(text) });
  }

  /** Seconds with the antenna `metres` south of the mark and the bow north, and what else is sent. */
  lie(seconds: number, metres: number, more: string[] = []): void {
    for (let i = 0; i < seconds; i++) {
      this.at++;
      const minutes = 60 * (36 + metres / 110_962);
      const lat = `${two(minutes / 60)}${(minutes % 60).toFixed(5).padStart(8, '0')}`;
      this.line('HEHDT,0.0,T');
      this.line('SDDPT,6.0,0.5,');
      for (const text of more) this.line(text);
      this.line(`GPRMC,${clock(this.at)},A,${lat},S,16330.00000,E,0.0,,141123,,,A`);
    }
  }

  order(command: Command) {
    return this.take({ kind: 'command', at: this.at, by: 'Ann', command });
  }

  weigh() {
    return snapshot(this.engine, this.at).weigh;
  }

  private take(input: Parameters<typeof step>[1]) {
    const done = step(this.engine, input);
    this.engine = JSON.parse(JSON.stringify(done.state));
    this.events.push(...done.events);
    return done.answer;
  }
}

function weighing(): Helm {
  const helm = new Helm();
  helm.lie(5, 47);
  helm.order({ do: 'mark', how: { lat: -36, lon: 163.5, sigma: 1 } });
  helm.order({ do: 'watch', change: { veered: 40 } });
  helm.order({ do: 'weigh' });
  return helm;
}

describe('weighing in the engine', () => {
  test('begins with the order, and shows distance, cable and guidance with the next fix', () => {
    const helm = weighing();
    helm.lie(5, 47);
    const view = helm.weigh()!;
    expect(view.since).toBe(START + 5);
    expect(view.distance!.value).toBeCloseTo(38, 0);
    expect(view.out).toMatchObject({ value: 40, from: 'veered' });
    expect(view.stay!.name).toBe('long');
    expect(view.guidance).toBeDefined();
    expect(helm.events).toContainEqual(expect.objectContaining({ event: 'weigh', stay: 'long' }));
  });

  test('hears the chain counter that hawse.yaml names', () => {
    const helm = weighing();
    helm.lie(5, 47, ['IIXDR,D,38.5,M,CHAIN']);
    expect(helm.weigh()!.out).toMatchObject({ value: 38.5, from: 'counter' });
  });

  test('a foul lead becomes an alert like any other, and ends with the weighing', () => {
    const helm = weighing();
    helm.order({ do: 'signal', signal: 'heaving' });
    helm.order({ do: 'signal', signal: 'lead:4' });
    helm.lie(6, 47);
    expect(snapshot(helm.engine, helm.at).alerts).toMatchObject([{ kind: 'lead-foul', priority: 'warning' }]);
    helm.order({ do: 'stop-weighing' });
    expect(helm.weigh()).toBeUndefined();
    expect(helm.events.at(-1)).toMatchObject({ kind: 'lead-foul', state: 'rectified-unacknowledged' });
  });

  test('signals are numbered one after the other', () => {
    const helm = weighing();
    expect(helm.order({ do: 'signal', signal: 'ahead' })).toEqual({ ok: true, signal: 1 });
    expect(helm.order({ do: 'signal', signal: 'stop' })).toEqual({ ok: true, signal: 2 });
    expect(helm.weigh()!.lastSignal).toMatchObject({ signal: 'stop', number: 2, by: 'Ann' });
  });

  test('a wind angle is held while weighing only, and needs a wind or a number', () => {
    const helm = new Helm();
    expect(helm.order({ do: 'hold-wind' })).toMatchObject({ ok: false, problem: 'refused' });
    const other = weighing();
    expect(other.order({ do: 'hold-wind' })).toMatchObject({ ok: false, problem: 'unavailable' });
    expect(other.order({ do: 'hold-wind', angle: 24 })).toEqual({ ok: true });
    expect(other.weigh()!.held).toEqual({ angle: 24 });
    other.lie(2, 47, ['WIMWV,30.0,R,10.0,N,A']);
    expect(other.weigh()!.held).toEqual({ angle: 24, deviation: 6 });
  });
});

describe('aweigh', () => {
  test('closes the mark, tells how long she lay and how far she swung, and can be taken back whole', () => {
    const helm = weighing();
    helm.order({ do: 'signal', signal: 'out:30' });
    helm.lie(60, 47);
    const before = snapshot(helm.engine, helm.at);
    expect(helm.order({ do: 'aweigh' })).toEqual({ ok: true });
    expect(helm.events).toContainEqual(
      expect.objectContaining({
        event: 'note',
        text: expect.stringMatching(/^Aweigh after 1 min, at most 38 m/),
      }),
    );
    expect(snapshot(helm.engine, helm.at).watch.mark).toBeUndefined();
    expect(helm.weigh()).toBeUndefined();
    helm.lie(20, 60);
    const back = helm.order({ do: 'undo-aweigh' });
    expect(back).toMatchObject({ ok: true, mark: { lat: -36, lon: 163.5 } });
    const after = snapshot(helm.engine, helm.at);
    expect(after.watch.mark).toEqual(before.watch.mark);
    expect(after.watch.veered).toBe(40);
    expect(after.watch.phase).toBe('weighing');
    expect(after.weigh!.out!.from).toBe('foredeck');
    expect(helm.engine.watch.track.length).toBeGreaterThan(5);
    expect(helm.order({ do: 'undo-aweigh' })).toMatchObject({ ok: false, problem: 'refused' });
  });

  test('is not taken back over a new mark, nor after half an hour', () => {
    const helm = weighing();
    helm.order({ do: 'aweigh' });
    helm.order({ do: 'mark', how: { here: true } });
    expect(helm.order({ do: 'undo-aweigh' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('new mark'),
    });
    const late = weighing();
    late.order({ do: 'aweigh' });
    late.at += 1900;
    expect(late.order({ do: 'undo-aweigh' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('long ago'),
    });
  });
});
