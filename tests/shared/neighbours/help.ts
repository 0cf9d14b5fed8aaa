import { aisSentence, type Spoken, staticSentences } from '../../../server/simulate/neighbours/speak.ts';
import { destination } from '../../../shared/earth/geodesic.ts';
import { NEIGHBOURS } from '../../../shared/neighbours/limits.ts';
import { hearAis, type Own, passNeighbours } from '../../../shared/neighbours/neighbours.ts';
import { createNeighbours } from '../../../shared/neighbours/state.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import { decode } from '../../../shared/sentences/decode.ts';

/** An invented anchorage: our anchor, we lie north of it since the wind is from the south. */
export const ANCHOR: LatLon = { lat: 12.5, lon: -61.25 };
export const own = (at: number, more: Partial<Own> = {}): Own => ({
  at,
  roller: destination(ANCHOR, 0, 35),
  heading: 180,
  length: 12,
  beam: 4,
  anchor: ANCHOR,
  anchorSigma: 3,
  reach: 35,
  depth: 8,
  lie: 180,
  windSpeed: 8,
  ...more,
});

/** A neighbours' room with a clock of its own. */
export function room(more: Partial<Own> = {}) {
  const state = createNeighbours();
  let at = 1000;
  const hear = (line: string, source = 'udp1') => {
    const decoded = decode(line, { requireChecksum: true });
    if (!decoded.ok) throw new Error(decoded.why);
    hearAis(state, decoded, at, source, undefined);
  };
  return {
    state,
    now: () => at,
    hear,
    says: (spoken: Spoken) => hear(aisSentence(spoken)),
    tellsStatic: (...told: Parameters<typeof staticSentences>) => {
      for (const line of staticSentences(...told)) hear(line);
    },
    /** Lets seconds pass, up to the next look around; `each` is called before every one. */
    pass(seconds: number, each?: (at: number) => void) {
      for (let i = 0; i < seconds || at % NEIGHBOURS.every !== 0; i++) {
        at++;
        each?.(at);
        passNeighbours(state, at, () => own(at, more));
      }
      return state.views;
    },
  };
}
