import type { Observation } from '../../shared/sentences/observation.ts';
import type { Quantity, VesselView } from '../../shared/vessel/view.ts';

/** What a duty of hawse gets from the instruments. `rough`: it works, and not as well as it could. */
export interface Duty {
  duty: string;
  state: 'served' | 'rough' | 'missing';
  /** Which quantity serves it and from where, or what its lack means. */
  text: string;
  /** What to do about it. */
  cure?: string;
}

export type Said = Observation['kind'];

/** What was heard so far. */
export interface HeardOf {
  view: VesselView;
  /** Every kind of thing that was said by a sentence with a right checksum. */
  said: ReadonlySet<Said>;
}

type Served = Omit<Duty, 'duty'>;

/** Every duty, most needed first, with what serves it or what to do. Pure. */
export function duties(heard: HeardOf): Duty[] {
  return DUTIES.map(([duty, judge]) => ({ duty, ...judge(heard) }));
}

const DUTIES: readonly (readonly [string, (heard: HeardOf) => Served])[] = [
  ['circle and drag', circle],
  ['roller, lead', roller],
  ['wind alarms', wind],
  ['depth alarms', depth],
  ['motion', motion],
  ['tidal stream', stream],
  ['neighbours', neighbours],
  ['time', time],
];

const from = ({ view }: HeardOf, quantity: Quantity): string =>
  view.sources[quantity] === undefined ? '' : ` from ${view.sources[quantity]}`;
const served = (text: string): Served => ({ state: 'served', text });
const rough = (text: string, cure: string): Served => ({ state: 'rough', text, cure });
const missing = (text: string, cure: string): Served => ({ state: 'missing', text, cure });

function circle(heard: HeardOf): Served {
  const { antenna, positionDoubt } = heard.view;
  if (antenna && positionDoubt)
    return rough(
      `position${from(heard, 'position')}, doubtful: ${positionDoubt.reason}`,
      "give the antenna a free view of the sky; look at the receiver's own page",
    );
  if (antenna) return served(`position${from(heard, 'position')}`);
  if (heard.said.has('position') || heard.said.has('no-position'))
    return missing(
      'the receiver speaks but has no position to give: no anchor watch is possible',
      'give its antenna a free view of the sky and wait some minutes',
    );
  return missing(
    'no position: no anchor watch is possible',
    'connect a GNSS receiver that sends GGA, RMC, GNS or GLL',
  );
}

function roller(heard: HeardOf): Served {
  const { heading } = heard.view;
  if (heading)
    return served(
      `heading${from(heard, 'heading')}${heading.from === 'magnetic-model' ? ', magnetic, made true by the model of the earth’s field' : ''}`,
    );
  if (heard.said.has('heading-magnetic') && !heard.view.antenna)
    return rough(
      'magnetic heading only, and no position to tell its variation',
      'it is made true as soon as there is a position',
    );
  return missing(
    'no heading: lead and roller position will be rough',
    'connect a compass that sends HDG, HDT, HDM or THS; until then the circle allows for the antenna’s whole distance from the roller. Course over ground is no heading at anchor',
  );
}

function wind(heard: HeardOf): Served {
  const { windGround, windApparent, heading } = heard.view;
  if (windGround) return served(`wind${from(heard, 'wind')}`);
  if (windApparent)
    return rough(
      `apparent wind only${from(heard, 'wind')}: strength is watched, a shift is not`,
      heading
        ? 'wind over the ground needs speed over ground too: RMC or VTG'
        : 'wind over the ground needs a heading: HDG, HDT, HDM or THS',
    );
  return missing(
    'no wind: no alarm when it rises or shifts, and how she should lie is not known',
    'connect the wind instrument: MWV, VWR or MWD',
  );
}

function depth(heard: HeardOf): Served {
  const { depth } = heard.view;
  if (depth?.value.surface !== undefined) return served(`depth${from(heard, 'depth')}`);
  if (depth)
    return rough(
      `depth below the transducer only${from(heard, 'depth')}`,
      'tell boat.sounder.belowWaterline in hawse.yaml',
    );
  return missing(
    'no depth: no alarm when it shoals, and none for low water',
    'connect the echo sounder: DPT, DBT or DBS; plan by chart and lead line until then',
  );
}

function motion(heard: HeardOf): Served {
  const { sog } = heard.view;
  if (sog) return served(`speed and course over ground${from(heard, 'motion')}`);
  return missing(
    'no speed over ground: wind over the ground and the set of the stream are not known',
    'let the receiver send RMC or VTG',
  );
}

function stream(heard: HeardOf): Served {
  const { stream, waterSpeed, heading, sog } = heard.view;
  if (stream) return served(`set and drift${from(heard, 'stream')}`);
  if (waterSpeed && heading && sog)
    return served(`worked out from speed through water${from(heard, 'water-speed')}, heading and motion`);
  if (waterSpeed)
    return rough(
      'speed through water arrives; set and drift need heading and speed over ground too',
      'see "roller, lead" and "motion"',
    );
  return missing(
    'no speed through water: set and drift of the stream are not known',
    'connect the log (VHW, VBW) or a meter of the stream (VDR); an alarm does not hang on it',
  );
}

function neighbours({ said }: HeardOf): Served {
  if (said.has('ais-fragment')) return served('AIS arrives');
  return missing(
    'no AIS: other vessels are not seen, and nothing warns of them',
    'connect the AIS receiver (VDM; its port mostly speaks at 38400 baud); an anchor watch does not hang on it',
  );
}

function time(heard: HeardOf): Served {
  if (heard.view.clockOffset !== undefined) {
    const seconds = Math.round(heard.view.clockOffset);
    if (Math.abs(seconds) <= CLOCK_TOLERATED) return served('UTC from the receiver; this computer agrees');
    return rough(
      `this computer’s clock is ${Math.abs(seconds)} s ${seconds > 0 ? 'behind' : 'ahead of'} the receiver’s UTC`,
      'set it before the watch begins',
    );
  }
  return missing(
    'no UTC: times on pages and in the log are this computer’s own',
    'let the receiver send RMC or ZDA',
  );
}

/** As the watch itself tolerates, seconds: docs/journal.md, "The clock". */
const CLOCK_TOLERATED = 5;
