import type { Activity, NeighbourView } from '../../shared/neighbours/view.ts';

const activities: Record<Activity, string> = {
  'at-anchor': 'at anchor',
  moored: 'moored',
  'under-way': 'under way',
  unknown: 'lies or moves: not known',
};

/** Every word of what lies around: neighbours, sectors, lee, wind to come. */
export const aroundWords = {
  title: 'What lies around',
  summary: (neighbours: number, sectors: number) =>
    [
      neighbours > 0 && `${neighbours} ${neighbours === 1 ? 'neighbour' : 'neighbours'}`,
      sectors > 0 && `${sectors} ${sectors === 1 ? 'sector' : 'sectors'}`,
    ]
      .filter(Boolean)
      .join(' · '),
  none: 'hawse knows of no neighbour. It hears AIS only: a boat without it is seen by eyes.',
  care: 'Their cable and anchor are guessed. AIS may be late, wrong or silent: look.',
  label: ({ name, id, from }: NeighbourView): string => name ?? (from === 'ais' ? id.slice(4) : 'neighbour'),
  activity: (view: NeighbourView): string => activities[view.activity],
  judged: 'judged by how she moves',
  stale: (age: string) => `not heard for ${age}`,
  clear: 'clear water now',
  bears: (bearing: string) => `bears ${bearing}`,
  together: (m: string) => `${m} at least, swinging together`,
  outOfStep: (m: string) => `${m} at least, swinging apart`,
  overlap: (m: string) => `could touch by ${m}, swinging apart`,
  veered: (m: string, told: boolean) => `her cable ${told ? '' : 'guessed '}${m}`,
  over: 'lies over our anchor',
  drags: (beyond: string) => `probably drags, ${beyond} beyond her circle`,
  passes: (m: string, time: string) => `passes at ${m} in ${time}`,
  takeAway: 'Take away',

  tell: 'Tell a neighbour without AIS',
  name: 'What she looks like',
  range: (unit: string) => `Range of her bow from ours, ${unit}`,
  bearing: 'Bearing, ° true',
  length: (unit: string) => `Her length, ${unit}`,
  cable: (unit: string) => `Her cable, ${unit}`,
  guessed: 'Empty: guessed.',
  save: 'Put on the plan',
  saved: 'On the plan.',
  needs: 'Write range and bearing as numbers.',

  sectors: 'Parts she must not enter',
  draw: 'Draw with a finger on the plan',
  drawing: 'Sweep over the plan, around the anchor: from bearing to bearing, as near as she must not come.',
  stopDrawing: 'Do not draw',
  from: 'From bearing, ° true',
  to: 'clockwise to bearing, ° true',
  beyond: (unit: string) => `from so far off the anchor, ${unit}`,
  sectorName: 'Name, such as the bank',
  sector: (name: string | undefined, from: string, to: string, beyond: string) =>
    `${name ?? 'Sector'}: ${from} to ${to}, beyond ${beyond}`,
  keep: 'Watch this sector',
  kept: 'Watched.',
  needsNumbers: 'Write both bearings and the distance as numbers.',
  noMark: 'Sectors are drawn about the mark: mark the anchor first.',

  windToCome: 'Wind to come',
  above: (kn: string) => `Warn at ${kn} more than now`,
  shift: (degrees: number) => `Warn at ${degrees}° of shift from now`,
  aboveNow: (limit: string) => `Set: warning above ${limit}.`,
  noWind: 'The wind is not known now.',
  lee: 'To leeward',

  zoom: { closer: 'Closer', wider: 'Wider' },
};
