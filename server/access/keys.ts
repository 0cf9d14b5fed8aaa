import { randomBytes } from 'node:crypto';
import { renameSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type KeyView, ROLES, type Role } from '../../shared/access.ts';
import { readText, removeFile, replaceSecretFile } from './file.ts';
import { hashOf, newKey } from './secret.ts';

/** Keys at most: a boat has a few; what has more is a mistake or an attack. */
export const MOST_KEYS = 64;
const HOUR = 3600;
/** How the one key of earlier versions is called now. */
export const OLD_KEY = "boat's key";

const record = z.strictObject({
  id: z.string().regex(/^[0-9a-f]{8}$/),
  name: z.string().min(1).max(60),
  role: z.enum(ROLES),
  hash: z.string().length(43),
  created: z.number(),
  lastUsed: z.number().optional(),
});
type Record = z.output<typeof record>;
const fileSchema = z.strictObject({ keys: z.array(record).max(MOST_KEYS) });

/** The named keys of this boat. What is kept is enough to know a key again, not to make one. */
export interface KeyRing {
  list(): KeyView[];
  /** No more can be added. */
  full(): boolean;
  /** Whose key that is; notes that it was used. Never throws. */
  find(key: string): KeyView | undefined;
  /** Makes a key; the name is made different from all others. Throws when it cannot be kept: then there is no such key. */
  add(name: string, role: Role): { key: string; view: KeyView };
  /** From now on that key opens nothing. Throws when that cannot be written, but it holds until a restart all the same. */
  takeAway(id: string): KeyView | undefined;
}

export interface KeyRingPorts {
  /** UNIX seconds. */
  now(): number;
  /** Something that a person should read: the file was damaged, an old key was taken over, the disk refuses. */
  note(text: string): void;
}

/** Reads `keys.json` of the data folder. Never throws: without keys this computer still commands. */
export function openKeyRing(folder: string, { now, note }: KeyRingPorts): KeyRing {
  const path = join(folder, 'keys.json');
  const byHash = new Map<string, Record>();
  for (const key of readKeys(path, note)) byHash.set(key.hash, key);
  takeOver(join(folder, 'key'));

  function save(): void {
    replaceSecretFile(path, `${JSON.stringify({ keys: [...byHash.values()] }, null, 1)}\n`);
  }

  /** Until now there was one key, in plain text in a file of its own. Who bears it must not be locked out. */
  function takeOver(old: string): void {
    try {
      const key = readText(old)?.trim();
      if (key === undefined) return;
      if (key !== '' && !byHash.has(hashOf(key))) {
        byHash.set(hashOf(key), { ...fresh(OLD_KEY, 'command', now()), hash: hashOf(key) });
        save();
        note(`The key of an earlier hawse is kept as "${OLD_KEY}"; its file "key" is gone.`);
      }
      removeFile(old);
    } catch (error) {
      note(`The key of an earlier hawse cannot be taken over for good: ${(error as Error).message}`);
    }
  }

  function freeName(wanted: string): string {
    const taken = new Set([...byHash.values()].map(({ name }) => name.toLowerCase()));
    let name = wanted;
    for (let i = 2; taken.has(name.toLowerCase()); i++) name = `${wanted} ${i}`;
    return name;
  }

  function fresh(name: string, role: Role, created: number): Omit<Record, 'hash'> {
    return { id: randomBytes(4).toString('hex'), name: freeName(name), role, created };
  }

  return {
    list: () => [...byHash.values()].map(viewOf),
    full: () => byHash.size >= MOST_KEYS,
    find(key) {
      const found = byHash.get(hashOf(key));
      if (!found) return undefined;
      const at = now();
      if (found.lastUsed === undefined || Math.abs(at - found.lastUsed) >= HOUR) {
        found.lastUsed = at;
        try {
          save();
        } catch (error) {
          note(`When "${found.name}" was last used cannot be kept: ${(error as Error).message}`);
        }
      }
      return viewOf(found);
    },
    add(name, role) {
      if (byHash.size >= MOST_KEYS) throw new Error(`there are ${MOST_KEYS} keys already`);
      const key = newKey();
      const made = { ...fresh(name, role, now()), hash: hashOf(key) };
      byHash.set(made.hash, made);
      try {
        save();
      } catch (error) {
        byHash.delete(made.hash);
        throw error;
      }
      return { key, view: viewOf(made) };
    },
    takeAway(id) {
      const found = [...byHash.values()].find((key) => key.id === id);
      if (!found) return undefined;
      byHash.delete(found.hash);
      save();
      return viewOf(found);
    },
  };
}

/** What cannot be read is put aside, not thrown away and not believed in part. */
function readKeys(path: string, note: (text: string) => void): Record[] {
  try {
    const text = readText(path);
    if (text === undefined) return [];
    const checked = fileSchema.safeParse(json(text));
    if (checked.success) return checked.data.keys;
    const aside = `${path}.damaged-${Date.now()}`;
    renameSync(path, aside);
    note(`The file of keys was damaged and lies in ${aside}: pair the phones anew.`);
  } catch (error) {
    note(`The file of keys cannot be read: ${(error as Error).message}. Pair the phones anew.`);
  }
  return [];
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const viewOf = ({ hash: _hash, lastUsed, ...rest }: Record): KeyView => ({
  ...rest,
  ...(lastUsed === undefined ? {} : { lastUsed }),
});
