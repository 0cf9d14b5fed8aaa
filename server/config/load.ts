import { readFileSync } from 'node:fs';
import { type Document, isNode, LineCounter, parseDocument } from 'yaml';
import { ConfigError, describeFaults, inPlainWords } from './faults.ts';
import { type Config, configSchema } from './schema.ts';

/** Reads and checks hawse.yaml. Throws ConfigError with every fault, its line and what is allowed. */
export function loadConfig(file: string): Config {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new ConfigError(`${file}: cannot be read: ${(error as Error).message}`);
  }
  return parseConfig(text, file);
}

/** Checks the text of a config file; `file` is only named in errors. */
export function parseConfig(text: string, file: string): Config {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines });
  if (document.errors.length > 0) {
    const faults = document.errors.map(
      (error) => `${file}:${lines.linePos(error.pos[0]).line}: ${error.message.split('\n')[0]}`,
    );
    throw new ConfigError(faults.join('\n'));
  }
  const checked = configSchema.safeParse(plain(document, file) ?? {}, { error: inPlainWords });
  if (checked.success) return checked.data;

  const lineOf = (path: PropertyKey[]): number | undefined => {
    for (let depth = path.length; depth > 0; depth--) {
      const node = document.getIn(path.slice(0, depth), true);
      if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
    }
    return undefined;
  };
  throw new ConfigError(describeFaults(file, checked.error, lineOf));
}

/** An alias of nothing, or aliases of aliases without end, are found only when values are made of the text. */
function plain(document: Document, file: string): unknown {
  try {
    return document.toJS();
  } catch (error) {
    throw new ConfigError(`${file}: ${(error as Error).message}`);
  }
}
