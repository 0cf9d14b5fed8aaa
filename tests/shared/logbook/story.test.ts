import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { acknowledge, update } from '../../../shared/alerts/alerts.ts';
import { createEngine, type EngineState, step } from '../../../shared/engine.ts';
import { endNight, observe, reopenNight, summaryOf } from '../../../shared/logbook/observe.ts';
import { beginNight, type NightRecord } from '../../../shared/logbook/record.ts';
import { storyOf } from '../../../shared/logbook/story.ts';
import { view } from '../../../shared/vessel/vessel.ts';

const AT = 1_700_000_000;

describe('the story tells', () => {
  const text = (event: Parameters<typeof storyOf>[0]) => storyOf(event)?.text;

  test('weighing in the order of what matters, and only what is known', () => {
    const weigh = { event: 'weigh', t: AT } as const;
    expect(text({ ...weigh, stay: 'short', cable: 'taut', distance: 12.4, out: 14.6 })).toBe(
      'short stay, cable taut, 12 m to the anchor, 15 m out.',
    );
    expect(text({ ...weigh, stay: 'up-and-down' })).toBe('up and down.');
    expect(text({ ...weigh, stay: 'aweigh' })).toBe('aweigh.');
    expect(text({ ...weigh, cable: 'slack' })).toBe('cable slack.');
  });

  test('signals with their author, notes, and the end of the mark; alerts stand in a list of their own', () => {
    expect(storyOf({ event: 'signal', t: AT, by: 'Bo', signal: 'heaving', number: 1 })).toEqual({
      at: AT,
      kind: 'signal',
      by: 'Bo',
      text: 'heaving',
    });
    expect(text({ event: 'note', t: AT, text: 'A note.' })).toBe('A note.');
    expect(storyOf({ event: 'mark', t: AT, by: 'Ann' } as never)).toMatchObject({
      kind: 'aweigh',
      by: 'Ann',
    });
    expect(
      storyOf({
        event: 'alert',
        t: AT,
        id: 'deep.1',
        kind: 'deep',
        priority: 'warning',
        state: 'normal',
        text: '',
      }),
    ).toBeUndefined();
  });
});

/** An engine with a mark, told by its position. */
function marked(): EngineState {
  const engine = createEngine({ ...toSettings(commonBoat()), circle: { margin: 6, radius: 60 } });
  const how = { lat: -36, lon: 163.5 };
  return step(engine, { kind: 'command', at: AT, by: 'Ann', command: { do: 'mark', how } }).state;
}
const told = { id: 'x', origin: 'watch', version: 'test' } as const;

describe('the record of a night', () => {
  test('there is none without a mark', () => {
    expect(beginNight(createEngine(toSettings(commonBoat())), AT, told)).toBeUndefined();
  });

  test('begins with the alerts that stand, who acknowledged them and what they measured', () => {
    const engine = marked();
    update(
      engine.alerts,
      [
        { kind: 'deep', priority: 'warning', text: 'Deep.', value: 14, limit: 12 },
        { kind: 'wind-speed', priority: 'warning', text: 'Wind.' },
      ],
      AT - 60,
    );
    acknowledge(engine.alerts, 'deep.1', 'Bo', AT - 30);
    const { night } = beginNight(engine, AT, { ...told, simulated: 'a drill', place: 'Moss Bay' })!;
    expect(night.summary).toMatchObject({ simulated: 'a drill', place: 'Moss Bay' });
    expect(night.settings.circle).toMatchObject({ radius: 60 });
    expect(night.alerts).toContainEqual({
      id: 'deep.1',
      kind: 'deep',
      priority: 'warning',
      text: 'Deep.',
      value: 14,
      limit: 12,
      from: AT - 60,
      acknowledgedBy: 'Bo',
      acknowledgedAt: AT - 30,
      changes: [{ at: AT - 30, state: 'active-acknowledged', priority: 'warning', text: 'Deep.' }],
    });
    const other = night.alerts.find(({ kind }) => kind === 'wind-speed')!;
    expect(Object.keys(other)).not.toContain('value');
    expect(Object.keys(other)).not.toContain('acknowledgedBy');
  });

  const notes = ({ night }: NightRecord) => night.story.map(({ text }) => text);

  test('tells a start of hawse, with the same settings or others, and a change of them in its own words', () => {
    const engine = marked();
    const record = beginNight(engine, AT, told)!;
    const settings = (note?: string) =>
      observe(
        record,
        engine,
        { kind: 'settings', at: AT + 10, settings: engine.settings, ...(note ? { note } : {}) },
        [],
        (at) => view(engine.vessel, engine.settings, at),
      );
    settings();
    engine.settings.circle.radius = 70;
    settings();
    settings('Ann has changed the circle.');
    settings();
    expect(notes(record)).toEqual([
      'hawse was started anew, with the same settings.',
      'hawse was started anew, with other settings than before.',
      'Ann has changed the circle.',
      'hawse was started anew, with the same settings.',
    ]);
  });

  test('that was ended by mistake goes on, and says for how long nobody watched', () => {
    const record = beginNight(marked(), AT, told)!;
    endNight(record, AT + 100);
    reopenNight(record, AT + 160);
    expect(record.night.summary.to).toBeUndefined();
    expect(notes(record)).toEqual(['"Aweigh" was taken back; for 60 s no watch was kept.']);
  });

  test('a story too long to read is cut, and says so once', () => {
    const engine = marked();
    const record = beginNight(engine, AT, told)!;
    const note = { event: 'note', t: AT, text: 'again' } as const;
    observe(record, engine, { kind: 'tick', at: AT }, Array(20_005).fill(note), (at) =>
      view(engine.vessel, engine.settings, at),
    );
    expect(record.night.story).toHaveLength(20_001);
    expect(record.night.story.at(-1)!.text).toMatch(/not told here/);
  });

  test('counts the sentences of this night only', () => {
    const engine = marked();
    const line = (at: number) =>
      step(engine, { kind: 'line', at, source: 'bus', text: '$GPGGA,nonsense*00' });
    line(AT + 1);
    const record = beginNight(engine, AT + 2, told)!;
    line(AT + 3);
    line(AT + 4);
    expect(summaryOf(record, engine).rejected.checksum).toBe(2);
  });
});
