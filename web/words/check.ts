import type { CheckedQuantity, CheckItem } from '../../shared/weigh/check-view.ts';

/** Every word of the departure check, and of the anchorage that was left. */
export const checkWords = {
  title: 'Departure check',
  measured: 'What hawse measures now',
  people: 'What only people can see',
  noMark: 'There is no mark: nothing to leave.',
  ready: (look: number, open: number) =>
    look + open === 0
      ? 'Nothing speaks against weighing, as far as hawse and this list can tell.'
      : `Before you weigh: ${[look > 0 && `${look} to look at`, open > 0 && `${open} not ticked`].filter(Boolean).join(', ')}.`,
  states: { good: 'Good', look: 'Look', unknown: 'Unknown' } satisfies Record<CheckItem['state'], string>,
  quantities: {
    wind: 'Wind',
    stream: 'Stream',
    depth: 'Depth',
    neighbours: 'Neighbours',
    position: 'Position',
    lie: 'Lie',
  } satisfies Record<CheckedQuantity, string>,
  done: (ticked: number, of: number) => `Log this check: ${ticked} of ${of} ticked`,
  logged: 'In the journal.',
  last: (time: string, by: string) => `Checked at ${time} by ${by}`,
  open: (items: readonly string[]) => (items.length === 0 ? 'all ticked' : `open: ${items.join(', ')}`),
  warns: 'It warns and forbids nothing. hawse sees neither bottom nor cable: look.',
  start: 'Start to weigh',
  weighing: 'Weighing has begun.',
  helm: 'Helm page',
  foredeck: 'Foredeck page',
  edit: 'Change the list',
  editLabel: 'One item on each line',
  save: 'Keep this list',
  common: 'The common list again',
  own: 'your own',
  saved: 'Kept.',

  left: (time: string, by: string) => `Aweigh at ${time}${by ? `, by ${by}` : ''}. The mark is closed.`,
  lain: (hours: string) => `Lay ${hours}`,
  swung: (metres: string) => `at most ${metres} from the mark`,
  load: (force: string, spread: string, wind: string) =>
    `worst steady load about ${force} (± ${spread}) in ${wind}, sheer and waves not counted`,
  share: (percent: number) => `${percent}\u00a0% of the chain’s working load`,
  under: (run: string) => `${run} run since`,
  undo: 'Not aweigh: take it back',
  undoUntil: (time: string) => `until ${time}`,
};
