import type { ConfigChange } from '../../shared/config.ts';
import type { Settings } from '../../shared/settings.ts';

type Value = number | string | undefined;

/** Keys that the set-up page shows, in the order of the file, and where each figure stands that holds now; SI. */
export const SHOWN: Record<string, (settings: Settings) => Value> = {
  'boat.name': ({ boat }) => boat.name,
  'boat.mmsi': ({ boat }) => boat.mmsi,
  'boat.hull': ({ boat }) => boat.hull,
  'boat.length': ({ boat }) => boat.length,
  'boat.beam': ({ boat }) => boat.beam,
  'boat.draft': ({ boat }) => boat.draft,
  'boat.roller.height': ({ boat }) => boat.roller.height,
  'boat.antenna.aftOfRoller': ({ boat }) => boat.antenna.aftOfRoller,
  'boat.antenna.toStarboard': ({ boat }) => boat.antenna.toStarboard,
  'boat.sounder.belowWaterline': ({ boat }) => boat.sounder.belowWaterline,
  'boat.sounder.aftOfRoller': ({ boat }) => boat.sounder.aftOfRoller,
  'boat.windage.area': ({ boat }) => boat.windage.area,
  'boat.displacement': ({ boat }) => boat.displacement,
  'cable.size': ({ cable }) => (cable.size === undefined ? undefined : cable.size / 1000),
  'cable.massPerMetre': ({ cable }) => cable.massPerMetre,
  'cable.workingLoad': ({ cable }) => cable.workingLoad,
  'cable.length': ({ cable }) => cable.length,
  'cable.rope': ({ cable }) => cable.rope,
  'cable.veered': ({ cable }) => cable.veered,
  'cable.counter': ({ cable }) => cable.counter,
  'watch.circleRadius': ({ circle }) => circle.radius,
  'watch.margin': ({ circle }) => circle.margin,
  'watch.depthBelow': ({ limits }) => limits.depthBelow,
  'watch.depthAbove': ({ limits }) => limits.depthAbove,
  'watch.underKeelBelow': ({ limits }) => limits.underKeelBelow,
  'watch.windAbove': ({ limits }) => limits.windAbove,
  'watch.windShift': ({ limits }) => limits.windShift,
  'watch.deviation': ({ deviation }) => JSON.stringify(deviation),
  'weigh.approachSpeed': ({ weigh }) => weigh?.approachSpeed,
  'weigh.slowWithin': ({ weigh }) => weigh?.slowWithin,
  'weigh.windlassRate': ({ weigh }) => weigh?.windlassRate,
};

/** Parts of the file that become settings of the running watch. Everything else is read when hawse starts. */
export const TAKEN_OVER = ['boat', 'cable', 'watch', 'weigh'] as const;

/**
 * What the page may write beside those. Not by page: what runs programs (raise, supervise), who may do what (server.access), and
 * how long the log is kept. A stolen phone must not be able to run a program on the boat's computer.
 */
const FURTHER = /^(instruments\.\d+\.(baud|udp|host|from|tcp|id|checksumOptional)|server\.(port|mdns))$/;

export const mayBeSet = (key: string): boolean => Object.hasOwn(SHOWN, key) || FURTHER.test(key);

const TOLD_FIRST =
  'What was told on the watch page for this anchorage goes before it, until she weighs or it is told anew.';

/** What a change of the keys under each of these does; the longest that fits is meant. */
const DOES: Record<string, string> = {
  boat: 'The boat is reckoned anew.',
  'boat.name': 'Pages and log bear the new name. The boat’s certificate keeps the old one.',
  'boat.mmsi': 'AIS messages of this number are our own: she is no neighbour of herself.',
  'boat.hull': 'The drawing, and the wind load of the hull, are reckoned anew.',
  'boat.length': 'The drawing, and the wind load of the hull, are reckoned anew.',
  'boat.beam': 'The drawing, and the wind load of the hull, are reckoned anew.',
  'boat.draft': 'Water under the keel is reckoned by it, and so are its warnings.',
  'boat.roller':
    'The cable hangs from there: reach, computed circle, and the cable needed are reckoned anew.',
  'boat.antenna':
    'The bow roller moves in relation to the fixes: distance and bearing of the anchor jump by as much. Mark and track of this anchorage were made with the old figure and stay as they are; better changed before she anchors.',
  'boat.sounder.belowWaterline':
    'Depth below the surface, below the keel, and the depth alarms are reckoned by it, whatever offset the sounder sends.',
  'boat.sounder.aftOfRoller': 'Soundings are drawn in another place from now on; older ones stay.',
  'boat.windage': 'The pull of the wind on the cable is reckoned by it.',
  'boat.displacement': 'Her inertia in surge and yaw is reckoned by it.',
  'cable.size':
    'Weight and working load of the chain come from the table for that size, where the file tells none of its own.',
  'cable.massPerMetre': 'The cable hangs by this weight; it goes before the table.',
  'cable.workingLoad': 'Loads are told as a share of it.',
  'cable.length': 'So much chain is on board: planner and foredeck go by it.',
  'cable.rope': 'So much rope is behind the chain: the planner goes by it.',
  'cable.veered': `The length out when none is told. ${TOLD_FIRST}`,
  'cable.counter': 'Metres out are read from sentences of that name.',
  'cable.marks': 'The foredeck page offers these marks.',
  cable: 'The cable is reckoned anew.',
  'watch.deviation': 'Every heading is corrected by the new card, from the next one on.',
  'watch.margin': 'The computed circle is larger or smaller by the difference.',
  watch: `The limit holds from now on. ${TOLD_FIRST}`,
  weigh: 'The weighing monitor advises by it.',
  instruments: 'Inputs are opened when hawse starts.',
  server: 'The server is set up when hawse starts; pages must then be opened at the new address.',
};

/** The words for one changed key. */
export function consequence(key: string): Pick<ConfigChange, 'does' | 'when'> {
  const found = Object.keys(DOES)
    .filter((prefix) => key === prefix || key.startsWith(`${prefix}.`))
    .sort((a, b) => b.length - a.length)[0];
  const when = TAKEN_OVER.some((part) => key.startsWith(`${part}.`)) ? 'at-once' : 'restart';
  const does = found === undefined ? 'It is read when hawse starts.' : DOES[found]!;
  return { does, when };
}
