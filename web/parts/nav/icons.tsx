import type { VNode } from 'preact';
import { Icon } from '../icons.tsx';

/** Our own signs for the pages of the bar, by the page's name; the words stand beneath. */
export const PAGE_ICONS: Record<string, () => VNode> = {
  // The circle round the mark, and the boat in it.
  watch: () => (
    <Icon>
      <circle cx="12" cy="12" r="9.5" />
      <path d="M12 9V15M9.5 13C10 15 11 15.5 12 15.5S14 15 14.5 13M10.5 10.5H13.5" />
    </Icon>
  ),
  check: () => (
    <Icon>
      <path d="M4 6.5L5.5 8L8 4.5M4 12.5L5.5 14L8 10.5M4 18.5L5.5 20L8 16.5M12 6.5H20M12 12.5H20M12 18.5H20" />
    </Icon>
  ),
  // A wheel.
  weigh: () => (
    <Icon>
      <circle cx="12" cy="12" r="6" />
      <path d="M12 2V22M2 12H22M5 5L19 19M19 5L5 19" />
    </Icon>
  ),
  // Water that rises on a pole.
  tide: () => (
    <Icon>
      <path d="M2 17.5C5 14.5 7.5 14.5 10 17S15 19.5 22 16M2 12C5 9 7.5 9 10 11.5S15 14 22 10.5M17 2V8M14.5 4.5L17 2L19.5 4.5" />
    </Icon>
  ),
  plan: () => (
    <Icon>
      <path d="M2 7H22M18.5 7C16 15 11 18.5 3 19.5M14.5 7L16 3.5H21.5L20.5 7" />
    </Icon>
  ),
  logbook: () => (
    <Icon>
      <path d="M5 3H19V21H5ZM8.5 3V21M12 8H16M12 12H16" />
    </Icon>
  ),
};
