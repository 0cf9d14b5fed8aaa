import type { ComponentChildren } from 'preact';

/** Our own line drawings, 24 by 24. They are decoration: the buttons carry the words. */
export function Icon({ children }: { children: ComponentChildren }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
      {children}
    </svg>
  );
}

export const MenuIcon = () => (
  <Icon>
    <path d="M4 7H20M4 12H20M4 17H13" />
  </Icon>
);

export const SunIcon = () => (
  <Icon>
    <circle cx="12" cy="12" r="4" />
    <path d="M12 2.5V5M12 19V21.5M2.5 12H5M19 12H21.5M5.3 5.3L7 7M17 17L18.7 18.7M5.3 18.7L7 17M17 7L18.7 5.3" />
  </Icon>
);

export const MoonIcon = () => (
  <Icon>
    <path d="M19.5 14.5A8 8 0 0 1 9.5 4.5A8 8 0 1 0 19.5 14.5Z" />
  </Icon>
);

export function SoundIcon({ on }: { on: boolean }) {
  return (
    <Icon>
      <path d="M3.5 9.5V14.5H7L12 18.5V5.5L7 9.5Z" />
      {on ? (
        <path d="M15 9A4.5 4.5 0 0 1 15 15M17.5 6.5A8 8 0 0 1 17.5 17.5" />
      ) : (
        <path d="M15 9L21 15M21 9L15 15" />
      )}
    </Icon>
  );
}
