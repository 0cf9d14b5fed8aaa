import type { Alert, AlertState, Priority } from '../shared/alerts/alert.ts';
import type { PlanItems } from '../shared/plan/plan.ts';
import { turn } from '../shared/quantities/angle.ts';
import type { Quantity } from '../shared/vessel/view.ts';
import type { CableState, Mark } from '../shared/watch/view.ts';

/** Every word on the pages, in one place. The words of the trade; short; a unit once per figure. */

export const words = {
  product: 'hawse',
  unknown: '—',
  pages: { watch: 'Watch', plan: 'Plan', tide: 'Tide', logbook: 'Logbook', instruments: 'Instruments' },
  noSuchPage: 'There is no such page.',
  pageComing: 'Loading this page…',
  pageNotCome: 'This page could not be loaded: the boat does not answer. Trying again.',

  simulated: (name: string) => `SIMULATED: ${name}`,
  calling: 'Calling the boat…',
  callingDetail: 'Nothing is known yet: no word has come from the boat.',

  link: {
    region: 'Link to the boat',
    short: 'No word',
    lost: (age: string) => `No word from the boat for ${age}: this page is not watching.`,
    stopped: 'The daemon has stopped: nobody is watching.',
    stoppedReason: (reason: string, since: string) => `It said at ${since}: ${reason}.`,
    report: 'No word from the boat. Where she lies now is unknown to this page.',
    whatToDo: 'Look at the boat’s computer and the Wi-Fi. Calling again all the time.',
    acknowledge: 'Acknowledge',
    standstill: 'The boat answers, but her figures stand still: this page does not know where she lies.',
    gapSeen: 'Seen',
  },

  figures: {
    distance: 'Roller to anchor',
    bearing: 'Anchor bears',
    lead: 'Cable grows',
    depth: 'Depth',
    wind: 'Wind over ground',
    windApparent: 'Apparent wind',
    heading: 'Heading',
    motion: 'Over ground',
    cable: 'Cable',
    reach: (reach: string) => `reach ${reach}`,
    stream: 'Stream',
    anchorMoved: 'Anchor has moved',
    depthOf: { surface: 'below the surface', measured: 'below the sounder' },
    underKeel: (depth: string) => `${depth} under the keel`,
    windFrom: (from: string) => `from ${from}`,
    streamTo: (set: string) => `setting ${set}`,
    towards: (cog: string) => `towards ${cog}`,
    headingFrom: {
      true: 'true',
      'magnetic-sensor': 'true, by compass',
      'magnetic-model': 'true, by compass and magnetic model',
    },
    dotted: 'dotted on the plan',
    probability: (p: number) => `${chance(p)} that it drags`,
    certainty: (p: number) => `${chance(p)} sure`,
  },

  age: {
    ago: (age: string) => `${age} ago`,
    fix: (age: string) => `fix ${age} old`,
    never: 'never heard',
    lost: 'no word',
    noMark: 'no mark',
    noHeading: 'heading unknown',
  },

  circle: {
    inside: (room: string) => `${room} inside the circle`,
    outside: (excess: string) => `${excess} outside the circle`,
    of: (radius: string) => `circle ${radius}`,
    none: 'no circle',
    farthest: (distance: string) => `Farthest since the mark: ${distance}.`,
  },

  plan: {
    title: (distance: string | undefined, radius: string | undefined) =>
      `Plan, north up.${distance ? ` The roller is ${distance} from the anchor.` : ''}${radius ? ` The circle has ${radius} radius.` : ''}`,
    headingUnknown: 'heading unknown',
    placeUnknown: 'place unknown',
    place: (spread: string) => `place ${spread}`,
    north: 'N',
    circle: (radius: string) => `circle ${radius}`,
  },

  mark: {
    title: 'Mark',
    letGo: 'Let go: mark the anchor here',
    letGoHint: 'Tap as the anchor goes down from the roller.',
    again: 'Mark again here',
    aweigh: 'Anchor aweigh',
    aweighHint: 'Aweigh closes the mark and ends the watch.',
    hold: 'hold for one second',
    pressAgain: 'press once more to confirm',
    otherwise: 'Mark by other means',
    byBearing: 'By bearing and distance from the roller',
    byPosition: 'By position',
    bearing: 'Bearing of the anchor, ° true',
    distance: (unit: string) => `Distance from the roller, ${unit}`,
    lat: 'Latitude, such as 16 30.500 S',
    lon: 'Longitude, such as 179 59.400 E',
    needsAngle: (what: string) => `${what}: degrees, minutes and N, S, E or W.`,
    set: 'Mark there',
    told: (how: string, by: string, at: string) => `${how} at ${at}, by ${by}`,
    how: {
      here: 'Let go',
      position: 'Told by position',
      'bearing-and-distance': 'Told by bearing and distance',
      track: 'Found from the swept track',
      'set-back': 'Moved to where the anchor dug in',
      'anchorage-file': 'From the anchorage file',
    } satisfies Record<Mark['how'], string>,
    known: (spread: string) => `known to ${spread}`,
    needsNumber: (what: string) => `${what}: write a number.`,
  },

  watch: {
    title: 'Cable, circle and limits',
    veered: (unit: string) => `Cable veered, ${unit}`,
    radius: (unit: string) => `Radius of the circle, ${unit}`,
    radiusHint: 'Empty: computed from cable, depth and wind.',
    depthBelow: (unit: string) => `Alarm when shallower than, ${unit}`,
    depthAbove: (unit: string) => `Alarm when deeper than, ${unit}`,
    underKeelBelow: (unit: string) => `Caution when low water leaves under the keel less than, ${unit}`,
    underKeelHint: 'Needs the tide: page “Tide”. Half a metre if never set.',
    windAbove: (unit: string) => `Warning when the wind exceeds, ${unit}`,
    windShift: 'Warning when the wind shifts by more than, °',
    limitHint: 'Empty: not watched.',
    save: 'Set these',
    saved: 'Set.',
    noChange: 'Nothing was changed.',
    summary: { veered: 'veered', circle: 'circle', computed: 'computed', set: 'set by hand' },
  },

  weigh: {
    title: 'Weigh',
    start: 'Start to weigh',
    stop: 'Stop weighing',
    on: 'Weighing',
    caution:
      'The windlass takes in slack cable only and never pulls the boat. Keep hands and feet off a loaded cable. The maker’s manuals and your own eyes come first.',
  },

  lookOnly: 'This screen may only look. To command, pair it: page “Phones”.',
  noAnswer: 'The boat did not answer: nothing was changed as far as this page knows. Try again.',

  alerts: {
    region: 'Alerts',
    priority: { alarm: 'Alarm', warning: 'Warning', caution: 'Caution' } satisfies Record<Priority, string>,
    state: {
      'active-unacknowledged': '',
      'active-silenced': 'silenced, sounds again soon',
      'active-acknowledged': 'acknowledged',
      'rectified-unacknowledged': 'over now, not acknowledged yet',
      normal: '',
    } satisfies Record<AlertState, string>,
    /** The same in one word, for a line that must stay one. */
    stateShort: {
      'active-unacknowledged': '',
      'active-silenced': 'silenced',
      'active-acknowledged': 'acknowledged',
      'rectified-unacknowledged': 'over',
      normal: '',
    } satisfies Record<AlertState, string>,
    acknowledge: 'Acknowledge',
    silence: 'Silence 30 s',
    since: (time: string) => `since ${time}`,
    acknowledgedBy: (by: string, at: string) => `acknowledged by ${by} at ${at}`,
    escalated: 'was a warning that nobody acknowledged',
    kinds: {
      drag: 'The anchor drags',
      'outside-circle': 'Outside the circle',
      'outside-sector': 'Where she must not be',
      shoal: 'Shoal',
      deep: 'Deep',
      'low-water': 'Low water',
      'wind-speed': 'Wind',
      'wind-shift': 'Wind shift',
      'position-lost': 'Position lost',
      'position-doubtful': 'Position doubtful',
      'heading-lost': 'Heading lost',
      'wind-lost': 'Wind lost',
      'depth-lost': 'Depth lost',
      'vessel-near': 'Vessel near',
      'lead-foul': 'Cable leads foul',
      'cable-taut': 'Cable taut',
      overrun: 'Anchor overrun',
      adrift: 'Adrift',
      disk: 'Log',
      clock: 'Clock',
      daemon: 'hawse itself',
    } satisfies Record<Alert['kind'], string>,
    subjects: {
      'daemon phones': 'No phone would wake you',
      'disk room': 'The disk is filling up',
    } as Record<string, string>,
    asLastHeard: 'as last heard',
    limit: (limit: string) => `limit ${limit}`,
    over: 'over',
    more: (count: number) => `${count} more, over or acknowledged`,
    fewer: 'Show fewer',
  },

  screen: {
    title: 'This screen',
    toDay: 'Change to the day palette',
    toNight: 'Change to the night palette',
    dimmer: 'Brightness at night',
    lengths: 'Lengths in',
    speeds: 'Speeds in',
    cautions: 'Cautions sound by',
    name: 'Name of this screen on the others',
    pages: 'Pages',
    menu: 'Pages and settings',
  },

  instruments: {
    inputs: 'Inputs',
    noInputs: 'No input has been heard of yet.',
    up: 'up',
    down: 'DOWN',
    sentences: 'sentences taken',
    refused: 'refused',
    checksum: 'by checksum',
    malformed: 'malformed',
    unknown: 'of a kind not read',
    lastRefusal: 'Last refused',
    lastGood: (age: string) => `last good sentence ${age} ago`,
    neverGood: 'no good sentence yet',
    quantities: 'Where each figure comes from',
    quantity: {
      position: 'Position',
      motion: 'Speed and course over ground',
      heading: 'Heading',
      wind: 'Wind',
      depth: 'Depth',
      'water-speed': 'Speed through water',
      stream: 'Stream',
      'water-temperature': 'Water temperature',
    } satisfies Record<Quantity, string>,
    noSource: 'none now',
    doubt: (reason: string, since: string) => `Position in doubt since ${since}: ${reason}`,
    notes: 'Notes of the watch',
    noNotes: 'Nothing has changed since the start.',
    pages: 'Open pages',
    noPages: 'The boat knows of no open page.',
    visible: 'in view',
    hidden: 'hidden',
    audible: 'sound runs',
    silent: 'no sound',
    silentFor: (age: string) => `not heard for ${age}`,
  },

  planner: {
    found: (veer: string, wind: string, scope: string) =>
      `Veer ${veer}: the pull stays along the bottom in ${wind} at high water (scope ${scope}).`,
    asked: (veer: string, wind: string, scope: string) =>
      `With ${veer} out the pull stays along the bottom in ${wind} at high water (scope ${scope}).`,
    lifts: (veer: string, wind: string, angle: string) =>
      `With ${veer} out the anchor is pulled upwards by ${angle} in ${wind} at high water.`,
    notEnough: (veer: string, wind: string, angle: string) =>
      `All ${veer} on board are not enough for ${wind}: the anchor is pulled upwards by ${angle} at high water.`,
    incomplete: (label: string) => `No plan yet: look at “${label}”.`,
    incompleteChain: 'No plan yet: choose the chain.',
    refused: 'No plan for this: look at what is marked below.',
    working: 'Working it out…',
    unanswered: 'No plan for this: the boat has not answered.',
    noAnswer: 'The boat did not answer. Asking again.',
    noLink: 'No link to the boat: nothing new can be worked out until it is back.',
    kept: (time: string) =>
      `Worked out at ${time}, before the link was lost. It still fits what is written below.`,
    toVeer: 'to veer',
    inMind: 'in mind',
    pulledUp: (angle: string) => `pulled up by ${angle}`,
    leftOnBoard: (left: string) => `${left} left on board`,
    scope: (scope: string) => `scope ${scope}`,
    judgement:
      'A plan, not live. Makers’ data, local rules and your own judgement come first: no plan replaces a look at the chart.',
    noTide: 'No tide is counted: the water is taken to stay as it is now.',
    noStream: 'No stream is counted.',
    cautions: 'Keep in mind',
    inputs: 'What to plan for',
    chain: 'Chain',
    ownChain: (mass: string) => `boat’s, ${mass} kg/m`,
    byMass: 'by its mass',
    less: (label: string) => `Less: ${label}`,
    more: (label: string) => `More: ${label}`,
    now: (figure: string) => `now ${figure}`,
    useNow: (label: string, figure: string) => `now ${figure}: take it for “${label}”`,
    needed: 'Needed for a plan.',
    noNumber: 'Write a number.',
    allowed: (least: number, most: number, unit: string) => `Allowed: ${least} to ${most} ${unit}.`,
    fields: {
      depth: { label: 'Depth now', hint: 'where the anchor will lie' },
      riseToHigh: { label: 'Rise to high water', hint: 'empty: none' },
      fallToLow: { label: 'Fall to low water', hint: 'empty: none' },
      wind: { label: 'Wind to prepare for', hint: 'mean; gusts are added' },
      stream: { label: 'Strongest stream', hint: 'of the whole tide' },
      massPerMetre: { label: 'Its mass', hint: 'in air' },
      chainLength: { label: 'Chain on board', hint: 'empty: as much as it takes' },
      ropeLength: { label: 'Rope behind it', hint: 'empty: none' },
      room: { label: 'Room', hint: 'to the nearest danger' },
      slope: { label: 'Slope of the bottom', hint: '+ rises towards the boat' },
      veer: { label: 'Length in mind', hint: 'empty: the shortest' },
    },
    groups: { swing: 'Room and water', cable: 'Cable at high water', pull: 'Pull on the cable' },
    items: {
      underKeelLow: 'Under the keel at low water',
      roomLeft: 'Room left',
      longestForRoom: 'Longest cable for the room',
      circleStern: 'Circle of the stern',
      circleRoller: 'Circle of the roller',
      circleAntenna: 'Circle of the antenna',
      scope: 'Scope',
      angleAtAnchor: 'Upward pull at the anchor',
      onBottom: 'Chain on the bottom',
      reachHigh: 'Reach at high water',
      reachLow: 'Reach at low water',
      load: 'Load',
      workingLoadShare: 'Of the working load',
      windLoad: 'By the wind',
      streamLoad: 'By the stream',
      tableLoad: 'Design table, 30 kn',
      surgePeak: 'Peak of a surge',
      veer: 'Cable to veer',
    },
    why: (formula: string) => `Formula: ${formula}.`,
    source: (source: string) => `Source: ${source}.`,
    marks: 'F published, M from memory, P common practice, C worked out here.',
    noPlan: 'no plan',
    untold: {
      roomLeft: 'room not told',
      longestForRoom: 'needs room for the boat',
      workingLoadShare: 'not known for this chain',
      tableLoad: 'boat not in the table',
    } satisfies Partial<Record<keyof PlanItems, string>> as Partial<Record<keyof PlanItems, string>>,
    drawing: {
      title: (veer: string, depth: string, keel: string) =>
        `Side view to scale: ${veer} of cable from the roller to the anchor in ${depth} at high water, ${keel} under the keel at low water.`,
      outline: 'Side view: no plan belongs to what is written.',
      high: (depth: string) => `high ${depth}`,
      now: (depth: string) => `now ${depth}`,
      low: (depth: string) => `low ${depth}`,
      veer: (veer: string) => `cable ${veer}`,
      reach: (reach: string) => `reach ${reach}`,
      onBottom: (length: string) => `${length} on the bottom`,
      keel: (depth: string) => `${depth} under the keel`,
      leastKeel: (depth: string) => `at least ${depth} under the keel`,
      aground: (depth: string) => `${depth} too little under the keel`,
      room: (room: string) => `room ${room}`,
      caption: 'To scale, in the gusts: at high water; dashed at low water.',
    },
  },

  cable: { slack: 'slack', fair: 'leads fair', taut: 'taut' } satisfies Record<CableState, string>,
};

/** A probability in words: nothing is ever quite sure. */
function chance(p: number): string {
  if (p < 0.01) return 'less than 1\u00a0%';
  if (p > 0.99) return 'more than 99\u00a0%';
  return `${Math.round(p * 100)}\u00a0%`;
}

/** Keeps a figure and its unit on one line. */
export const tied = (text: string): string =>
  text.replace(/(\d) (m|ft|kn|s|min|h|%|m\/s)(?![\p{L}\d])/gu, '$1\u00a0$2');

/** Where the cable grows, from the bow, in words; `lead` is signed, starboard positive. */
export function leadInWords(lead: number): string {
  const angle = Math.round(Math.abs(turn(0, lead)));
  const side = lead < 0 ? 'port' : 'starboard';
  if (angle <= 3) return 'right ahead';
  if (angle < 85) return `${angle}° on the ${side} bow`;
  if (angle <= 95) return `on the ${side} beam`;
  if (angle < 177) return `${angle - 90}° abaft the ${side} beam`;
  return 'right astern';
}
