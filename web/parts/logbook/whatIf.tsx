import { useState } from 'preact/hooks';
import type { Night } from '../../../shared/logbook/night.ts';
import type { Lived } from '../../../shared/logbook/rerun.ts';
import type { WhatIf } from '../../../shared/logbook/what-if.ts';
import { joined, length } from '../../format.ts';
import { lengthUnit, speedUnit } from '../../prefs.ts';
import { type Asked, ask } from '../../review/engine.ts';
import type { Progress } from '../../review/messages.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { Field } from '../field.tsx';
import { Panel } from '../panel.tsx';
import { sameAlerts } from './compare.ts';
import { Compared } from './compared.tsx';
import { liveAgain, living, loaded, type Opened, stopped } from './opened.ts';
import { Running } from './running.tsx';
import { EMPTY, type Tried, whatOf } from './tried.ts';

interface Result {
  lived: Lived;
  seconds: number;
  took: number;
}

/** The same night with other settings, beside what was. */
export function WhatIfPanel({ found }: { found: Opened }) {
  const { night } = found;
  const [tried, setTried] = useState<Tried>(EMPTY);
  const [run, setRun] = useState<{ progress: Progress; asked: Asked<Lived> }>();
  const [result, setResult] = useState<Result>();
  const [trouble, setTrouble] = useState<string>();

  const start = async () => {
    setTrouble(undefined);
    setResult(undefined);
    const what = whatOf(tried, night.summary.mark);
    if (typeof what === 'string') return setTrouble(what);
    if (!loaded.peek()) await liveAgain();
    if (!loaded.peek()) return;
    await runIt(what);
  };
  const runIt = async (what: WhatIf) => {
    const begun = performance.now();
    const asked: Asked<Lived> = ask({ do: 'what-if', what }, (progress) => setRun({ progress, asked }));
    setRun({ progress: { share: 0 }, asked });
    try {
      const lived = await asked.answer;
      const took = (performance.now() - begun) / 1000;
      setResult({ lived, took, seconds: lived.night.summary.upTo - lived.night.summary.from });
    } catch (error) {
      setTrouble(stopped(error) ? words.cancelled : (error as Error).message);
    } finally {
      setRun(undefined);
    }
  };
  const busy = run !== undefined || living.value !== undefined;
  return (
    <Panel title={words.whatIf} summary={words.whatIfGist}>
      <p>{words.whatIfIntro}</p>
      <Fields night={night} tried={tried} change={setTried} />
      <p class="note">{words.noSensitivity}</p>
      <p class="choices">
        <button type="button" class="primary" disabled={busy} onClick={() => void start()}>
          {words.run}
        </button>
        {(run ?? living.value) && (
          <button type="button" onClick={(run ?? living.value)!.asked.cancel}>
            {words.stop}
          </button>
        )}
      </p>
      <p class={trouble ? 'told trouble' : 'told'} role="status">
        {trouble ?? (run && <Running progress={run.progress} />)}
      </p>
      {result && loaded.value && (
        <>
          {found.from === 'boat' && !sameAlerts(night.alerts, loaded.value.night.alerts) && (
            <p class="care">{words.differs}</p>
          )}
          <Compared was={loaded.value} would={result.lived} />
          <p class="note">
            {words.took(
              words.times(Math.round(result.seconds / result.took)),
              `${result.took.toFixed(1)}\u00a0s`,
            )}
          </p>
        </>
      )}
    </Panel>
  );
}

interface FieldsProps {
  night: Night;
  tried: Tried;
  change: (tried: Tried) => void;
}

function Fields({ night: { settings }, tried, change }: FieldsProps) {
  const metres = (value: number | undefined) =>
    value === undefined ? words.circleHint : `${words.circleHint}, ${joined(length(value))}`;
  const field = (key: keyof Tried, label: string, hint: string = words.circleHint) => (
    <Field
      key={key}
      label={label}
      value={tried[key]}
      onChange={(value) => change({ ...tried, [key]: value })}
      hint={hint}
    />
  );
  return (
    <div class="fields">
      {field('circle', `${words.circle}, ${lengthUnit.value}`, metres(settings.circle?.radius))}
      {field('veered', `${words.veered}, ${lengthUnit.value}`, metres(settings.veered))}
      {field('chain', `${words.chain}, kg/m`, `${words.circleHint}, ${settings.cable.massPerMetre}`)}
      {field('windAbove', `${words.windAbove}, ${speedUnit.value}`)}
      {field('windShift', words.windShift)}
      {field('depthBelow', `${words.depthBelow}, ${lengthUnit.value}`, metres(settings.limits.depthBelow))}
      {field('depthAbove', `${words.depthAbove}, ${lengthUnit.value}`, metres(settings.limits.depthAbove))}
      {field('markBy', `${words.markMoved}, ${lengthUnit.value}`, words.markHintWhatIf)}
      {field('markTowards', words.markTo, words.markHintWhatIf)}
    </div>
  );
}
