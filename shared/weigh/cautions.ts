/** Cautions of the trade, to stand where the risk is. `at`: which page they belong to. They defer to makers' manuals and local rules. */
export interface Caution {
  id: string;
  at: 'helm' | 'foredeck' | 'both';
  text: string;
}

export const CAUTIONS: readonly Caution[] = [
  {
    id: 'windlass',
    at: 'both',
    text: 'Never pull the boat with the windlass: come ahead under engine until the cable is easy, then heave.',
  },
  {
    id: 'hands',
    at: 'foredeck',
    text: 'Keep hands, feet, hair and clothing clear of chain, gypsy and bridle.',
  },
  {
    id: 'snubbed',
    at: 'foredeck',
    text: 'A snubbed or taut cable is under load: stand clear of it and out of its line.',
  },
  { id: 'overrun', at: 'helm', text: 'Never overrun the cable: stop before the bow passes the anchor.' },
  {
    id: 'clear',
    at: 'helm',
    text: 'Keep the cable clear of hull, keel, saildrive, propeller and transducers.',
  },
  {
    id: 'manuals',
    at: 'both',
    text: "The makers' manuals of engine and windlass, and local rules, come first. hawse sees neither bottom nor cable: look.",
  },
];
