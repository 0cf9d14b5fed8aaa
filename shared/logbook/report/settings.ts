import type { NightSettings } from '../night.ts';
import { metres, safe, windSpeed } from './words.ts';

const LIMITS = {
  depthBelow: ['Alarm when shoaler than', metres],
  depthAbove: ['Alarm when deeper than', metres],
  underKeelBelow: ['Caution when low water leaves less under the keel than', metres],
  windAbove: ['Warning above a wind of', windSpeed],
  windShift: ['Warning when the wind has shifted by', (degrees: number) => `${degrees.toFixed(0)}°`],
} as const;

/** What was in force when the watch began, as a list. */
export function settingsOf({ boat, cable, limits, circle, veered }: NightSettings): string {
  const rows: [string, string][] = [
    [
      'Boat',
      `${safe(boat.name)}: ${boat.hull}, length ${metres(boat.length)}, beam ${metres(boat.beam)}, draft ${metres(boat.draft)}`,
    ],
    [
      'Antenna',
      `${metres(boat.antenna.aftOfRoller)} abaft the bow roller, ${metres(Math.abs(boat.antenna.toStarboard))} to ${boat.antenna.toStarboard < 0 ? 'port' : 'starboard'}`,
    ],
    [
      'Sounder',
      boat.sounder.belowWaterline === undefined
        ? 'depth below the waterline not told'
        : `${metres(boat.sounder.belowWaterline)} below the waterline`,
    ],
    [
      'Cable',
      `${veered === undefined ? 'length out not told' : `${metres(veered)} out`}, chain ${cable.massPerMetre.toFixed(2)} kg/m${cable.workingLoad === undefined ? '' : `, working load ${(cable.workingLoad / 1000).toFixed(1)} kN`}`,
    ],
    [
      'Circle',
      circle
        ? `${metres(circle.radius)}, ${circle.computed ? 'computed' : 'told'}. ${safe(circle.explanation)}`
        : 'none',
    ],
  ];
  for (const [key, [name, words]] of Object.entries(LIMITS)) {
    const value = limits[key as keyof typeof LIMITS];
    if (value !== undefined) rows.push([name, words(value)]);
  }
  return `<dl>${rows.map(([name, value]) => `<dt>${name}</dt><dd>${value}</dd>`).join('')}</dl><p class="small">Limits that are not listed were not watched, but for those that hawse watches always. Changes stand under what happened.</p>`;
}
