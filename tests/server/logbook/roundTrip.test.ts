import { createHash } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createEngine, type EngineState, step } from '../../../shared/engine.ts';
import type { Event } from '../../../shared/events.ts';
import type { Input } from '../../../shared/input.ts';
import { nightAnswer } from '../../../shared/messages.ts';
import { keepNights, START, whole } from './keptNight.ts';

const ID = '2026-11-25T2010-1';

/** A night of forty minutes in which the anchor drags, with orders, an acknowledgement, a mistaken "aweigh" and a restart. */
async function liveNight() {
  let kept = await keepNights();
  await kept.live(20);
  const before = kept.events.length;
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.live(300);
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ben',
    command: { do: 'watch', change: { circleRadius: 5 } },
  });
  await kept.live(120);
  const alert = kept.keeper.engine().alerts.held.find(({ alert }) => alert.kind === 'outside-circle')
    ?.alert.id;
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ben',
    command: { do: 'acknowledge', alert: alert ?? 'none' },
  });
  await kept.live(60);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.live(30);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'undo-aweigh' } });
  await kept.live(200);
  const events = kept.events.slice(before);
  await kept.stop();
  const restarted = kept.keeper.engine().now!;
  kept = await keepNights(kept.data);
  kept.away(60);
  await kept.live(300);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.live(10);
  events.push(...kept.events);
  await kept.stop();
  await kept.logbook.finish(ID, false);
  return { kept, events, restarted };
}

const night = liveNight();

async function relived(text: string): Promise<Event[]> {
  const [first, ...rest] = text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(first).toMatchObject({ kind: 'checkpoint', exact: true });
  let engine = { ...createEngine((first.state as EngineState).settings), ...(first.state as EngineState) };
  const events: Event[] = [];
  for (const input of rest as Input[]) {
    const done = step(engine, input);
    engine = done.state;
    events.push(...done.events);
  }
  return events;
}

describe('a night lived, kept and lived again', () => {
  test('the inputs of the night give the same events to the byte, over restart and undone "aweigh"', async () => {
    const { kept, events } = await night;
    const again = await relived(await whole(await kept.logbook.inputs(ID)));
    const ended = events.findLastIndex((event) => event.event === 'mark' && !event.mark);
    const live = events.slice(0, ended + 1);
    expect(live.some((event) => event.event === 'alert' && event.kind === 'outside-circle')).toBe(true);
    expect(JSON.stringify(again.slice(0, live.length))).toBe(JSON.stringify(live));
  });

  test('its facts: who did what, what was missing, how far she went', async () => {
    const { kept, events, restarted } = await night;
    const told = await kept.logbook.open(ID);
    expect(nightAnswer.strict().parse(told)).toEqual(told);
    const { summary, alerts, story, gaps, settings, strips, checksums } = told;
    expect(kept.troubles).toEqual([]);
    expect(summary).toMatchObject({ id: ID, origin: 'watch', marks: 2, versions: ['0.0.0-test'] });
    expect(summary.to).toBeGreaterThan(restarted + 300);
    expect(summary.from).toBeGreaterThan(START + 19);
    expect(summary.sentences).toBeGreaterThan(5000);
    const circle = alerts.find(({ kind }) => kind === 'outside-circle')!;
    expect(circle).toMatchObject({ priority: 'alarm', acknowledgedBy: 'Ben' });
    const raised = events.flatMap((event) =>
      event.event === 'alert' && event.kind === 'outside-circle' ? [event.id] : [],
    );
    expect(summary.alerts.kinds['outside-circle']).toBe(new Set(raised).size);
    expect(story.map(({ text }) => text)).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^Mark told by its position/),
        expect.stringMatching(/^Watch changed by Ben: .*circle/i),
        'Aweigh.',
        expect.stringMatching(/^"Aweigh" was taken back; for 3\d s no watch/),
        'hawse was started anew, with the same settings.',
      ]),
    );
    // The restart is a silence, and the page says of whom.
    const silence = gaps.filter(({ kind }) => kind === 'silence');
    expect(silence).toHaveLength(1);
    expect(silence[0]!.why).toBe('hawse was not running');
    expect(silence[0]!.to! - silence[0]!.from).toBeGreaterThan(59);
    expect(summary.gaps.seconds.silence).toBeCloseTo(silence[0]!.to! - silence[0]!.from, 6);
    expect(settings.boat.name).toBe(summary.boat);
    expect(summary.farthest!.distance).toBeGreaterThanOrEqual(
      Math.max(...strips.map(({ distanceMost }) => distanceMost ?? 0)) - 0.001,
    );
    expect(summary.windMost!.speed).toBeCloseTo(Math.max(...strips.map(({ windMost }) => windMost ?? 0)), 0);
    expect(summary.depth!.least).toBeGreaterThan(1);
    expect(summary.load!.worst).toBeGreaterThan(summary.load!.steady!.value);
    expect(summary.load!.part).toBeCloseTo(summary.load!.worst / summary.load!.workingLoad!, 9);
    expect(strips.length).toBeGreaterThan(25);
    expect(strips.every(({ at }, i) => i === 0 || at > strips[i - 1]!.at)).toBe(true);
    expect(checksums.length).toBeGreaterThan(0);
  });

  test('checksums are those of the sentences that are given out', async () => {
    const { kept } = await night;
    const { checksums, summary } = await kept.logbook.open(ID);
    const text = await whole(await kept.logbook.sentences(ID));
    let rest = Buffer.from(text, 'latin1');
    for (const { sha256, bytes } of checksums) {
      expect(createHash('sha256').update(rest.subarray(0, bytes)).digest('hex')).toBe(sha256);
      rest = rest.subarray(bytes);
    }
    expect(rest).toHaveLength(0);
    expect(text.split('\n')[0]).toMatch(/^\\s:sim,c:17\d+\.\d+\*[0-9A-F]{2}\\[$!]/);
    expect(text.trimEnd().split('\n').length).toBeGreaterThan(summary.sentences / 2);
  });

  test('a lost or damaged record is made anew from the journal: the same facts', async () => {
    const { kept } = await night;
    const before = await kept.logbook.open(ID);
    const folder = join(kept.data, 'nights', ID);
    writeFileSync(
      join(folder, 'summary.json'),
      readFileSync(join(folder, 'summary.json'), 'utf8').slice(0, 500),
    );
    rmSync(join(folder, 'strips.jsonl'));
    rmSync(join(kept.data, 'nights', 'index.json'));
    const anew = await keepNights(kept.data);
    await expect(anew.logbook.open(ID)).rejects.toThrow(/damaged/);
    await anew.logbook.mend();
    const after = await anew.logbook.open(ID);
    const { rebuilt, ...summary } = after.summary;
    expect(rebuilt).toEqual({ exact: true });
    expect({ ...after, summary }).toEqual(before);
    await anew.stop();
  });

  test('a journal whose logbook is gone altogether, or that never had one, gets its nights back', async () => {
    const { kept } = await night;
    const before = await kept.logbook.open(ID);
    rmSync(join(kept.data, 'nights'), { recursive: true });
    const anew = await keepNights(kept.data);
    await anew.logbook.mend();
    const { nights } = await anew.logbook.list();
    expect(nights.map(({ id }) => id)).toEqual([ID]);
    const after = await anew.logbook.open(ID);
    expect(after.summary).toMatchObject({
      from: before.summary.from,
      to: before.summary.to,
      rebuilt: { exact: false },
    });
    expect(after.checksums).toEqual(before.checksums);
    await anew.stop();
  });
});
