/** The shape of each signal, so that it is known without reading. */

const SHAPES: Record<string, string> = {
  ahead: 'M12 21V4M4 12L12 3L20 12',
  astern: 'M12 3V20M4 12L12 21L20 12',
  neutral: 'M3 12H21M12 8A4 4 0 1 1 12 16A4 4 0 1 1 12 8',
  heaving: 'M12 21V11M7 15L12 10L17 15M7 9L12 4L17 9',
  holding: 'M4 6H20M4 18H20M12 6V18',
  snubbed: 'M3 5H21M12 5V15A4 4 0 0 1 4 15',
  'up-and-down': 'M12 2V22M8 6L12 2L16 6M8 18L12 22L16 18',
  aweigh: 'M12 3V14M6 10C6 14 9 15 12 15S18 14 18 10M2 20C5 18 7 18 10 20S15 22 22 19',
  foul: 'M4 4L20 20M20 4L4 20',
};

export function SignalSign({ signal }: { signal: string }) {
  if (signal === 'stop')
    return (
      <svg class="signal-sign stop-sign" viewBox="0 0 24 24" aria-hidden="true">
        <path d="M7.5 1.5H16.5L22.5 7.5V16.5L16.5 22.5H7.5L1.5 16.5V7.5Z" />
      </svg>
    );
  const [word = '', figure] = signal.split(':');
  return (
    <svg class="signal-sign" viewBox="0 0 24 24" aria-hidden="true">
      {word === 'lead' ? (
        <>
          <circle cx="12" cy="12" r="10" />
          <path d="M12 12V3" transform={`rotate(${30 * Number(figure)} 12 12)`} />
        </>
      ) : (
        <path
          d={
            SHAPES[word] ?? 'M8 3H16A4 4 0 0 1 16 11H8A4 4 0 0 1 8 3M8 13H16A4 4 0 0 1 16 21H8A4 4 0 0 1 8 13'
          }
        />
      )}
    </svg>
  );
}
