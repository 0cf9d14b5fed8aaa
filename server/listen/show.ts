import type { Said } from './duties.ts';
import type { InputReport, ListenReport, PortReport } from './report.ts';
import type { SentenceHeard } from './tally.ts';

/** What a sentence says, in the words of the pages. */
const WORDS: Record<Said, string> = {
  time: 'UTC',
  position: 'position',
  'no-position': 'no fix',
  accuracy: 'accuracy',
  dilution: 'dilution',
  'satellites-in-view': 'satellites',
  motion: 'speed and course over ground',
  heading: 'heading',
  'heading-magnetic': 'magnetic heading',
  variation: 'variation',
  'rate-of-turn': 'rate of turn',
  'wind-apparent': 'apparent wind',
  'wind-theoretical': 'computed wind',
  'wind-ground': 'wind over ground',
  'water-speed': 'speed through water',
  'ground-speed': 'speed over ground',
  stream: 'set and drift',
  depth: 'depth',
  'water-temperature': 'water temperature',
  'distance-log': 'distance log',
  transducer: 'transducer',
  'ais-fragment': 'AIS',
  'alert-sentence': 'alerts',
};

const SIGNS = { served: '+', rough: '~', missing: '-' } as const;

/** The report in lines to read, at most `width` characters wide. Noise of the wire never reaches the terminal as it came. */
export function show(report: ListenReport, width = 100): string[] {
  return [
    ...showHead(report, width),
    ...report.duties.flatMap(({ duty, state, text, cure }) => [
      ...folded(`${SIGNS[state]} ${duty.padEnd(16)} `, text, width),
      ...(cure === undefined ? [] : folded(' '.repeat(21), cure, width)),
    ]),
    '',
    'Sentences               a second    count  says',
    ...(report.sentences.length === 0
      ? ['  none yet']
      : report.sentences.flatMap((one) => showSentence(one, width))),
  ].map(clean);
}

/** The same for a low window: a line a duty, without what to do, and sentences side by side. */
export function showBriefly(report: ListenReport, width: number): string[] {
  const cells = report.sentences.map(({ input, talker, id, perSecond }) =>
    `${input} ${talker}${id} ${perSecond.toFixed(1)}`.padEnd(CELL),
  );
  const across = Math.max(1, Math.floor(width / CELL));
  const rows = Array.from({ length: Math.ceil(cells.length / across) }, (_, row) =>
    cells.slice(row * across, (row + 1) * across).join(''),
  );
  return [
    ...showHead(report, width),
    ...report.duties.map(({ duty, state, text }) => `${SIGNS[state]} ${duty.padEnd(16)} ${text}`),
    '',
    'Sentences a second (what to do: a higher window, or Ctrl-C)',
    ...(rows.length === 0 ? ['  none yet'] : rows),
  ].map((line) => clean(line).slice(0, width));
}

const CELL = 26;

const showHead = (report: ListenReport, width: number): string[] => [
  'Serial ports of this computer',
  ...(report.ports.length === 0
    ? ['  none is here: plug the adapter in, or use --udp or --tcp']
    : report.ports.flatMap((port) => showPort(port, width))),
  '',
  'Inputs',
  ...report.inputs.flatMap((input) => showInput(input, width)),
  '',
  'Duties (+ served, ~ rough, - missing)',
];

function showSentence(
  { input, talker, id, perSecond, count, isRead, says, age }: SentenceHeard,
  width: number,
): string[] {
  const name = `  ${input.padEnd(10)} ${`${talker} ${id}`.trim()}`.padEnd(23);
  const told = isRead
    ? says.map((kind) => WORDS[kind]).join(', ') || 'nothing (blank)'
    : 'hawse does not read it';
  const old = age > OLD ? `, last ${Math.round(age)} s ago` : '';
  const figures = `${perSecond.toFixed(1).padStart(8)} ${String(count).padStart(8)}  `;
  return folded(`${name} ${figures}`, told + old, width);
}

/** Seconds after which a kind of sentence is told to have gone quiet. */
const OLD = 10;

function showPort({ path, what, isListened, fault, cure }: PortReport, width: number): string[] {
  const state = fault ?? (isListened ? 'listening' : 'not listened to (--serial, or hawse.yaml)');
  const head = `  ${path}${what ? ` (${what})` : ''}: `;
  return folded(head, `${state}${cure ? `. Do: ${cure}` : ''}`, width, '      ');
}

function showInput(input: InputReport, width: number): string[] {
  const { id, port, baud, up, detail, sentences, rejected, lastRefusal, advice } = input;
  const { checksum, malformed, unknown } = rejected;
  const refused = [
    checksum > 0 ? `${checksum} by checksum` : '',
    malformed > 0 ? `${malformed} malformed` : '',
    unknown > 0 ? `${unknown} of a kind hawse does not read` : '',
  ].filter((text) => text !== '');
  return [
    ...folded(
      `  ${id.padEnd(10)} `,
      `${port}${baud === undefined ? '' : `, ${baud} baud`}: ${up ? `${sentences} sentences` : detail}${refused.length === 0 ? '' : `; refused ${refused.join(', ')}`}`,
      width,
    ),
    ...(lastRefusal === undefined ? [] : folded(`${' '.repeat(13)}last refusal: `, lastRefusal, width)),
    ...(advice === undefined ? [] : folded(`${' '.repeat(13)}do: `, advice, width)),
  ];
}

/** `head` and `text`, broken between words; what goes on stands below the text, or behind `indent`. */
function folded(head: string, text: string, width: number, indent = ' '.repeat(head.length)): string[] {
  const lines: string[] = [];
  let line = head;
  let isFresh = true;
  for (const word of text.split(' ')) {
    if (!isFresh && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent;
      isFresh = true;
    }
    line += isFresh ? word : ` ${word}`;
    isFresh = false;
  }
  return [...lines, line];
}

/** A terminal obeys control characters, and an input may send any. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are just what is meant
const clean = (line: string): string => line.replace(/[\x00-\x1f\x7f-\x9f]/g, '·').trimEnd();
