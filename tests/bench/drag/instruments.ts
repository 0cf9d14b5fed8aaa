/** Boats with fewer or coarser instruments: what becomes of a sentence on its way; undefined: it is not sent. */
export interface Fitted {
  name: string;
  pass(text: string, count: number): string | undefined;
  /** Nobody has told how much cable is out. */
  untold?: true;
}

const kind = (text: string) => text.slice(3, 6);
const without =
  (...kinds: string[]) =>
  (text: string) =>
    kinds.includes(kind(text)) ? undefined : text;

function remade(text: string, change: (fields: string[]) => void): string {
  const fields = text.slice(1, text.indexOf('*')).split(',');
  change(fields);
  const body = fields.join(',');
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, '0')}`;
}

/** RMC: 3 and 5 are latitude and longitude, 7 and 8 speed and course. */
export const FITTED: Fitted[] = [
  { name: 'all instruments', pass: (text) => text },
  { name: 'no wind', pass: without('MWV') },
  { name: 'no heading', pass: without('HDG') },
  {
    name: 'position only',
    pass: (text) =>
      kind(text) === 'RMC'
        ? remade(text, (fields) => {
            fields[7] = '';
            fields[8] = '';
          })
        : undefined,
  },
  {
    name: 'a fix every 2 s',
    pass: (text, count) => (kind(text) === 'RMC' && count % 2 === 1 ? undefined : text),
  },
  { name: 'cable not told', pass: (text) => text, untold: true },
  {
    name: '3 decimals',
    pass: (text) =>
      kind(text) === 'RMC'
        ? remade(text, (fields) => {
            for (const i of [3, 5])
              if (fields[i])
                fields[i] = Number(fields[i])
                  .toFixed(3)
                  .padStart(i === 3 ? 8 : 9, '0');
          })
        : text,
  },
];
