import { isCollection, isMap, isNode, isScalar, parseDocument, stringify, type YAMLMap } from 'yaml';
import { ConfigError } from './faults.ts';

/** A place in hawse.yaml, e.g. ['boat', 'antenna', 'aftOfRoller']. */
export type Path = readonly (string | number)[];
/** What is written there; undefined: the key is no longer set. */
export type Written = string | number | boolean | readonly unknown[] | undefined;

type Tree = Record<string | number, unknown>;

/**
 * The text with one value changed, and nothing else: every other line stays as it is, to the byte. A key that is not set any more
 * is not deleted, its lines become comments. What cannot be done line by line is done by the yaml package's document, which keeps
 * comments and order but may space anew. Whatever way: the result is parsed again and must say what was asked, else this throws a
 * ConfigError and the file is for a person's own hand.
 */
export function edit(text: string, path: Path, value: Written): string {
  const document = parseDocument(text);
  const fault = document.errors[0]?.message.split('\n')[0];
  if (fault !== undefined) throw new ConfigError(`it is no YAML now: ${fault}`);
  const before = (document.toJS() ?? {}) as Tree;
  const wanted = JSON.stringify(withValue(before, path, value));
  const says = (changed: string | undefined): changed is string => {
    if (changed === undefined) return false;
    const again = parseDocument(changed);
    return again.errors.length === 0 && JSON.stringify(again.toJS() ?? {}) === wanted;
  };
  if (JSON.stringify(before) === wanted) return text;
  const byLine = value === undefined ? unset(text, path, before) : set(text, path, value);
  if (says(byLine)) return byLine;
  try {
    if (value === undefined) document.deleteIn(pruned(before, path));
    else document.setIn(path, document.createNode(value));
    const bySpacing = document.toString({ lineWidth: 0 });
    if (says(bySpacing)) return bySpacing;
  } catch {
    // The document refuses what would leave an alias of nothing.
  }
  throw new ConfigError(`${path.join('.')} is written in a form that hawse does not change: do it by hand.`);
}

/** The parsed file with that value in it; maps that would be empty go with their last key. */
function withValue(tree: Tree, path: Path, value: Written): Tree {
  const copy = structuredClone(tree);
  if (value === undefined && !has(tree, path)) return copy;
  const at = value === undefined ? pruned(tree, path) : path;
  let here: Tree = copy;
  for (const step of at.slice(0, -1)) {
    if (typeof here[step] !== 'object' || here[step] === null) here[step] = {};
    here = here[step] as Tree;
  }
  const last = at.at(-1)!;
  if (value === undefined) delete here[last];
  else here[last] = value;
  return copy;
}

function has(tree: Tree, path: Path): boolean {
  let here: unknown = tree;
  for (const step of path) {
    if (typeof here !== 'object' || here === null || !(step in here)) return false;
    here = (here as Tree)[step];
  }
  return true;
}

/** The path to what has to go so that no empty map stays behind. */
function pruned(tree: Tree, path: Path): Path {
  for (let depth = path.length; depth > 1; depth--) {
    let here: unknown = tree;
    for (const step of path.slice(0, depth - 1)) here = (here as Tree | undefined)?.[step];
    if (typeof here !== 'object' || here === null || Object.keys(here).length > 1)
      return path.slice(0, depth);
  }
  return path.slice(0, 1);
}

const scalarText = (value: Written): string =>
  stringify(value, { lineWidth: 0, collectionStyle: 'flow' }).trimEnd();

function set(text: string, path: Path, value: Written): string | undefined {
  const document = parseDocument(text);
  const node = document.getIn(path, true);
  if (isNode(node) && node.range && !isEmpty(node)) {
    const [from, end] = node.range;
    const to = text.slice(from, end).endsWith('\n') ? end - 1 : end;
    return text.slice(0, from) + scalarText(value) + text.slice(to);
  }
  // The deepest section that is there, and whether anything stands in it.
  for (let depth = path.length - 1; depth >= 0; depth--) {
    const section = depth === 0 ? document.contents : document.getIn(path.slice(0, depth), true);
    if (isMap(section)) {
      if (section.flow || section.items.length === 0) return undefined;
      const empty = section.items.find(({ key }) => isScalar(key) && key.value === path[depth]);
      const column = columnOf(text, startOf(section));
      const after = empty ? startOfKey(empty.key) : endOf(section);
      if (column === undefined || after === undefined) return undefined;
      if (empty && depth === path.length - 1) return replaceEmpty(text, after, String(path[depth]), value);
      return insert(
        text,
        after,
        empty ? path.slice(depth + 1) : path.slice(depth),
        value,
        empty ? column + 2 : column,
      );
    }
  }
  return document.contents === null || isEmpty(document.contents)
    ? insert(text, Math.max(0, text.length - 1), path, value, 0)
    : undefined;
}

const isEmpty = (node: unknown): boolean => isScalar(node) && node.value === null && node.source === '';

/** `key:` without a value gets one, before whatever comment stands behind it. */
function replaceEmpty(text: string, keyAt: number, key: string, value: Written): string {
  const colon = text.indexOf(':', keyAt + key.length) + 1;
  return `${text.slice(0, colon)} ${scalarText(value)}${text.slice(colon)}`;
}

/** New lines after the one that `after` stands in. */
function insert(text: string, after: number, path: Path, value: Written, column: number): string {
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const lines = path.map((key, depth) => {
    const last = depth === path.length - 1;
    return `${' '.repeat(column + 2 * depth)}${key}:${last ? ` ${scalarText(value)}` : ''}${eol}`;
  });
  const end = text.indexOf('\n', after);
  const head = end < 0 ? text + (text === '' ? '' : eol) : text.slice(0, end + 1);
  return head + lines.join('') + (end < 0 ? '' : text.slice(end + 1));
}

/** Makes comments of the lines of a key, so that what stood there can be read and taken back. */
function unset(text: string, path: Path, before: Tree): string | undefined {
  const document = parseDocument(text);
  const at = pruned(before, path);
  const parent = at.length === 1 ? document.contents : document.getIn(at.slice(0, -1), true);
  if (!isMap(parent) || parent.flow) return undefined;
  const pair = parent.items.find(({ key }) => isScalar(key) && key.value === at.at(-1));
  const from = startOfKey(pair?.key);
  const end = pair && (endOf(pair.value) ?? endOf(pair.key));
  if (from === undefined || end === undefined) return undefined;
  const lineStart = text.lastIndexOf('\n', from) + 1;
  if (text.slice(lineStart, from).trim() !== '') return undefined;
  const lineEnd = text.indexOf('\n', end);
  const stop = lineEnd < 0 ? text.length : lineEnd;
  const column = from - lineStart;
  const lines = text
    .slice(lineStart, stop)
    .split('\n')
    .map((line) => (line.trim() === '' ? line : `${line.slice(0, column)}# ${line.slice(column)}`));
  return text.slice(0, lineStart) + lines.join('\n') + text.slice(stop);
}

const startOfKey = (key: unknown): number | undefined => (isNode(key) ? key.range?.[0] : undefined);
const startOf = (map: YAMLMap): number | undefined => startOfKey(map.items[0]?.key);
const columnOf = (text: string, at: number | undefined): number | undefined =>
  at === undefined ? undefined : at - (text.lastIndexOf('\n', at - 1) + 1);

/** Where the last character of a value stands, comments behind it left out. */
function endOf(node: unknown): number | undefined {
  if (!isNode(node) || !node.range) return undefined;
  if (isCollection(node) && !node.flow) {
    const last = node.items.at(-1);
    if (isNode(last)) return endOf(last);
    const pair = last as { key: unknown; value: unknown } | undefined;
    return pair && (endOf(pair.value) ?? endOf(pair.key));
  }
  const [from, end] = node.range;
  return Math.max(from, end - 1);
}
