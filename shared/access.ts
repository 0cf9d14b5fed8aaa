/** What a device may do. Each role may do all that those before it may. */
export const ROLES = ['look', 'acknowledge', 'command'] as const;
export type Role = (typeof ROLES)[number];

/** Whether the role `has` suffices for what `needed` stands for; no role suffices for nothing. */
export const mayDo = (has: Role | undefined, needed: Role): boolean =>
  has !== undefined && ROLES.indexOf(has) >= ROLES.indexOf(needed);

/** A key as others may see it: never the key itself. Times are UNIX seconds by the clock of the boat's computer. */
export interface KeyView {
  id: string;
  /** Of the device or person that bears it; every command is logged under it. No two keys have the same. */
  name: string;
  role: Role;
  created: number;
  /** To the hour. */
  lastUsed?: number;
}

/** Who got or lost a key. */
export interface AccessChange {
  what: 'paired' | 'made' | 'taken-away';
  name: string;
  role: Role;
}

const WORDS: Record<AccessChange['what'], string> = {
  paired: 'was paired by code',
  made: 'got a key',
  'taken-away': 'had its key taken away',
};

/** One line for the notes. */
export const accessNote = ({ what, name, role }: AccessChange, by: string): string =>
  `"${name}" (${role}) ${WORDS[what]}${what === 'paired' ? '' : `, by ${by}`}.`;
