import type { Quantity } from '../../shared/vessel/view.ts';
import { setupTitle } from './titles.ts';

/** Every word of the set-up page. */
export const setupWords = {
  title: setupTitle,
  allHeard: 'Everything that the watch goes by is heard.',
  missing: (what: string) => `Not heard: ${what}. See below what that means.`,
  lookUp: (count: number) =>
    count === 1 ? 'The data disagree with one figure.' : `The data disagree with ${count} figures.`,

  duties: 'What is heard, and what for',
  duty: {
    position: {
      name: 'Position',
      serves: 'Circle, drag, distance to the anchor.',
      without: 'Nothing watches the anchor. Look at the receiver: RMC, GGA or GLL must come.',
    },
    motion: {
      name: 'Speed and course over ground',
      serves: 'Wind over ground, drag, the way out.',
      without: 'No wind over ground from an apparent wind. Let the receiver send RMC or VTG.',
    },
    heading: {
      name: 'Heading',
      serves: 'Where the bow roller is; lead; wind over ground.',
      without:
        'Lead unknown, roller only within the length of the boat, circle wider. A compass that sends HDG, HDM, HDT or THS mends it.',
    },
    wind: {
      name: 'Wind',
      serves: 'Load on the cable, wind limits, how she lies.',
      without: 'Loads and wind limits are not watched. The masthead’s MWV or VWR mends it.',
    },
    depth: {
      name: 'Depth',
      serves: 'Depth limits, water under the keel, the cable’s shape.',
      without: 'No depth alarm, and the reach of the cable is not reckoned. DPT, DBT or DBS mends it.',
    },
    'water-speed': {
      name: 'Speed through water',
      serves: 'Stream, by comparison with the speed over ground.',
      without: 'The stream is not measured. VHW mends it; many boats do without.',
    },
    stream: {
      name: 'Stream',
      serves: 'How she lies, when it turns.',
      without: 'No instrument tells it (VDR); with log and heading hawse works it out.',
    },
    'water-temperature': {
      name: 'Water temperature',
      serves: 'The log of the night.',
      without: 'Nothing of the watch needs it.',
    },
  } satisfies Record<Quantity, { name: string; serves: string; without: string }>,
  needless: ['stream', 'water-temperature', 'water-speed'] as readonly Quantity[],
  from: (source: string, age: string) => `${source}, ${age} ago`,
  notHeard: 'not heard',
  windFrom: (wind: string, from: string) => `${wind} from ${from}`,
  depthOnly: (metres: string) => `${metres} below the transducer`,
  inputs: 'Inputs',
  none: 'No input.',
  sentences: (taken: string, refused: string) => `${taken} sentences taken, ${refused} refused`,
  more: 'All about the inputs',

  figures: 'Boat and cable',
  unitHint: 'Metres, or with a unit: 12.2, 42 ft, 140 cm.',
  drawing: 'The boat with her own figures; the length under your finger is drawn strong.',
  tap: 'Go into a figure: the drawing shows what it means.',
  side: 'From the side',
  above: 'From above',
  atAnchor: 'At anchor, not to a depth of yours',
  starboard: 'starboard',
  port: 'port',
  groups: {
    boat: 'Boat',
    antenna: 'Antenna',
    sounder: 'Sounder',
    cable: 'Cable',
    watch: 'Limits of the watch',
  },
  fields: {
    'boat.name': { label: 'Name', means: '' },
    'boat.length': { label: 'Length over all', means: 'From stem to stern.' },
    'boat.beam': {
      label: 'Beam',
      means: 'At her widest. Left out: a third of the length, half for more hulls.',
    },
    'boat.draft': { label: 'Draft', means: 'From the waterline to the lowest point.' },
    'boat.roller.height': {
      label: 'Roller above the water',
      means: 'The cable hangs from there: measure from the waterline to the top of the bow roller.',
    },
    'boat.antenna.aftOfRoller': {
      label: 'Antenna aft of the roller',
      means: 'Along the boat, from the bow roller to the GNSS antenna.',
    },
    'boat.antenna.toStarboard': {
      label: 'Antenna to starboard',
      means: 'From the centre line; to port with a minus.',
    },
    'boat.sounder.belowWaterline': {
      label: 'Sounder below the waterline',
      means: 'From the waterline down to the transducer. Left out: what the sounder itself sends.',
    },
    'boat.sounder.aftOfRoller': {
      label: 'Sounder aft of the roller',
      means: 'Along the boat, from the bow roller to the transducer.',
    },
    'cable.massPerMetre': {
      label: 'Weight of the chain, kg/m',
      means: 'From the maker’s data; it goes before the size. Left out: by size.',
    },
    'cable.workingLoad': {
      label: 'Working load, N',
      means: 'From the maker’s data; "12.5 kN" is legal too.',
    },
    'cable.length': {
      label: 'Chain on board',
      means: 'From the anchor to its end in the locker, or to the rope.',
    },
    'cable.rope': {
      label: 'Rope behind the chain',
      means: 'Joined to the end of the chain. Left out: none.',
    },
    'cable.veered': {
      label: 'Usually veered',
      means: 'From the roller to the anchor; told on the watch page each time.',
    },
    'watch.margin': { label: 'Margin of the circle', means: 'Added to the computed reach of the roller.' },
    'watch.circleRadius': {
      label: 'Fixed circle',
      means: 'From the mark to the roller. Left out: computed from the cable.',
    },
    'watch.depthBelow': { label: 'Alarm: less water than', means: 'Left out: not watched.' },
    'watch.depthAbove': { label: 'Alarm: more water than', means: 'Left out: not watched.' },
    'watch.underKeelBelow': {
      label: 'Caution: under the keel at low water',
      means: 'Left out: 0.5 m, when a tide is told.',
    },
    'watch.windAbove': {
      label: 'Warning: wind above',
      means: 'With a unit: "25 kn". Left out: not watched.',
    },
    'watch.windShift': { label: 'Warning: wind shift, degrees', means: 'Left out: not watched.' },
  } satisfies Record<string, { label: string; means: string }>,
  hull: 'Hull',
  hulls: { monohull: 'Monohull', catamaran: 'Catamaran', trimaran: 'Trimaran' },
  chain: 'Size of the chain',
  chainUntold: 'Not told: 10 mm is assumed',
  assumed: (figure: string) => `Assumed: ${figure}.`,
  notSet: 'Not set in the file.',
  holds: (figure: string) => `Holds now: ${figure}.`,

  compare: 'What the data say',
  compareAbout: 'Offered, never applied by itself. Since hawse was started, at this anchorage or under way.',
  antennaAft: (told: string, found: string, spread: string) =>
    `Antenna aft of the roller: told ${told}; by her sheer ${found} (${spread}).`,
  sounder: (told: string, found: string) =>
    `Sounder below the waterline: told ${told}; by the offset that it sends ${found}. Which is right, a lead line tells.`,
  untold: 'nothing',
  agree: 'No contradiction.',
  compass: 'Compass, under way against the course through the water',
  sector: (heading: string, left: string, sigma: string) => `${heading}: ${left} (${sigma})`,
  take: (figure: string) => `Put ${figure} into the form`,
  takeCard: 'Put this card into the form',
  taken: 'It stands in the form below; nothing is changed before you write it.',
  cannot:
    'Antenna to starboard, sounder’s place and roller height cannot be told from the data: measure them.',

  change: 'Change hawse.yaml',
  nothing: 'Nothing is changed yet.',
  card: 'New deviation card',
  see: 'See what it will do',
  write: 'Write it',
  drop: 'Drop these changes',
  written: 'Written. The text before it is kept as hawse.yaml.before.',
  same: 'The file says so already.',
  times: { 'at-once': 'at once', restart: 'after hawse is started again' },
  fromTo: (key: string, from: string, to: string) => `${key}: ${from} → ${to}`,
  unset: 'not set',
  waiting: 'In the file, and not in effect yet',
  fileIs: (file: string) => `The file: ${file}. Comments and order stay.`,
  listed: 'Inputs in the file',
  byHand:
    'Inputs, horn, access rules and keeping of the log are changed in the file by hand, then hawse is started again.',

  other: 'Also to be set up',
  horn: 'Test the horn',
  phones: 'Phones that wake',
  access: 'Who may command',
};

export type FieldKey = keyof typeof setupWords.fields;
