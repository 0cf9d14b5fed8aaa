import { joined, length, speed } from '../../format.ts';
import { link } from '../../live.ts';
import { told } from '../../told.ts';
import { tied, words } from '../../words.ts';
import { type Labels, Profile } from './profile.tsx';
import type { Scene } from './scene.ts';
import { angle, cautions, headline, keptSince, one, planned } from './sentence.ts';
import type { Standing, Worked } from './worked.ts';

/** Letters from which on the sentence is set smaller, so that the drawing below it stays in sight. */
const LONG = 100;

/** Sentence, figure, drawing and cautions: what a glance must bring. */
export function Lead({ standing }: { standing: Standing }) {
  const { status, plan } = standing;
  // For the moment until the answer comes, the last one stays, marked; it is never passed off as the new one.
  const last = status === 'worked' || status === 'working' ? plan : undefined;
  const pending = status !== 'worked';
  const text = last ? planned(last) : headline(standing);
  return (
    <div class={pending ? 'planner-lead pending' : 'planner-lead'} aria-busy={status === 'working'}>
      <p class={text.length > LONG ? 'report long' : 'report'} role="status">
        {tied(text)}
      </p>
      <Dominant plan={last} pending={pending} />
      <Standby standing={standing} />
      {plan && <Drawing plan={plan} labelled={!pending} />}
      <Cautions plan={last} />
    </div>
  );
}

function Dominant({ plan, pending }: { plan: Worked | undefined; pending: boolean }) {
  const { planner } = words;
  if (!plan) return <p class="dominant missing">{words.unknown}</p>;
  const { request, answer } = plan;
  const { veer, scope, angleAtAnchor } = answer.items;
  const text = length(veer.value);
  const onBoard = request.chainLength && request.chainLength + (request.ropeLength ?? 0);
  const label = request.veer === undefined ? planner.toVeer : planner.inMind;
  return (
    <section class="distance">
      <p class="dominant">
        {text.figure}
        <span class="unit"> {text.unit}</span>
      </p>
      <div class="beside">
        <p class="label">{pending ? planner.working : label}</p>
        <p>
          {planner.scope(one(scope.value))}
          {angleAtAnchor.value >= 0.1 && `, ${planner.pulledUp(angle(angleAtAnchor.value))}`}
        </p>
        {onBoard !== undefined && onBoard >= veer.value && (
          <p>{planner.leftOnBoard(joined(length(onBoard - veer.value)))}</p>
        )}
      </div>
    </section>
  );
}

/** Why there is nothing new, or that what is shown is kept from before. */
function Standby({ standing }: { standing: Standing }) {
  if (standing.status === 'unanswered') return <p class="trouble">{standing.why}</p>;
  const isKept = standing.status === 'worked' && link.value.status !== 'open';
  return isKept ? <p class="trouble">{keptSince(standing.plan)}</p> : null;
}

function Drawing({ plan, labelled }: { plan: Worked; labelled: boolean }) {
  const { drawing } = words.planner;
  const scene = sceneOf(plan);
  const labels = labelsOf(plan, scene);
  const veer = joined(length(plan.answer.items.veer.value));
  const title = labelled
    ? drawing.title(veer, joined(length(scene.depth.high, true)), labels.keel)
    : drawing.outline;
  return (
    <figure class="planner-drawing">
      <Profile title={title} scene={scene} labels={labelled ? labels : undefined} />
      <figcaption>{drawing.caption}</figcaption>
    </figure>
  );
}

/** The drawing is of the request that was answered, not of what is written meanwhile. */
function sceneOf({ request, answer }: Worked): Scene {
  const { depth, riseToHigh = 0, fallToLow = 0, slope = 0, boat, room } = request;
  return {
    boat,
    depth: { high: depth + riseToHigh, now: depth, low: depth - fallToLow },
    slope,
    cable: answer.profile,
    room,
  };
}

function labelsOf({ request, answer: { items } }: Worked, { depth }: Scene): Labels {
  const { drawing } = words.planner;
  const deep = (value: number) => joined(length(value, true));
  return {
    veer: drawing.veer(joined(length(items.veer.value))),
    high: drawing.high(deep(depth.high)),
    now: drawing.now(deep(depth.now)),
    low: drawing.low(deep(depth.low)),
    reach: drawing.reach(joined(length(items.reachHigh.value))),
    keel: keelLabel(items.underKeelLow.value, request.slope),
    onBottom: drawing.onBottom(joined(length(items.onBottom.value))),
    wind: joined(speed(request.wind)),
    room: request.room === undefined ? undefined : drawing.room(joined(length(request.room))),
  };
}

function keelLabel(underKeel: number, slope: number | undefined): string {
  const { drawing } = words.planner;
  const text = joined(length(Math.abs(underKeel), true));
  if (underKeel <= 0) return drawing.aground(text);
  // On a slope the figure is for the shoalest part of her circle, not for where she is drawn.
  return slope ? drawing.leastKeel(text) : drawing.keel(text);
}

function Cautions({ plan }: { plan: Worked | undefined }) {
  return (
    <section class="planner-cautions" aria-label={words.planner.cautions}>
      <ul>
        {plan &&
          cautions(plan).map((caution) => (
            <li key={caution} class="care">
              {told(caution)}
            </li>
          ))}
        <li class="note">{words.planner.judgement}</li>
      </ul>
    </section>
  );
}
