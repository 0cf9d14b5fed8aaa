import type { Fitting } from './fitting/view.ts';

/** hawse.yaml as the set-up page sees it. */

/** One key of the file. `value` is what holds now, SI; `written` is what the file says, with its unit; absent: the file does not set it. */
export interface ConfigField {
  key: string;
  value?: number | string;
  written?: string;
}

/** What one changed key does, and when. `from` and `to` as written; absent: not set. */
export interface ConfigChange {
  key: string;
  from?: string;
  to?: string;
  does: string;
  when: 'at-once' | 'restart';
}

export interface ConfigTold {
  /** The file; absent: there is none. */
  file?: string;
  /** Why nothing can be changed; absent: it can. */
  why?: string;
  fields: ConfigField[];
  instruments: { id: string; says: string }[];
  /** In the file, and not yet in effect. */
  waiting: ConfigChange[];
  /** What the data say of figures that people gave; each is offered, none is applied. */
  fitting: Fitting;
}

/** By key: a number is SI; text is as people write it, without a unit in the one that the file has there; null: not set any more. */
export type ConfigSet = Record<string, number | string | readonly (readonly [number, number])[] | null>;
