/** What the departure check tells people. */

export type CheckedQuantity = 'wind' | 'stream' | 'depth' | 'neighbours' | 'position' | 'lie';

/** good: nothing speaks against it; look: look at this before leaving; unknown: hawse cannot know, people must look. */
export interface CheckItem {
  item: CheckedQuantity;
  state: 'good' | 'look' | 'unknown';
  text: string;
}

/** A check that was made. */
export interface Departure {
  at: number;
  by: string;
  ticked: string[];
  /** On the list and not ticked. */
  open: string[];
  /** What hawse measured then and was not good. */
  look: CheckItem[];
}

export interface CheckView {
  /** What hawse measures, now. */
  measured: CheckItem[];
  /** What only people can see. */
  items: string[];
  /** The list is the crew's own. */
  own?: true;
  /** The last check in this anchorage. */
  last?: Departure;
}
