/** Every word of the bar that leads from page to page. */
export const navWords = {
  region: 'Pages',
  all: 'All pages',
  more: 'More',
  moreHint: ': pages and settings',
  /** Short enough for a fifth of a small phone; pages that are not here go by their title. */
  short: { check: 'Check', weigh: 'Helm', logbook: 'Log', night: 'Log' } as Record<string, string>,
};
