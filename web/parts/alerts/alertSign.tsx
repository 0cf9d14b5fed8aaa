import type { Priority } from '../../../shared/alerts/alert.ts';

/** Shape tells the priority where colour cannot: triangle, round, square. Hollow: the situation is over. */
const SHAPES: Record<Priority, string> = {
  alarm: 'M12 2L23 21H1Z',
  warning: 'M12 2A10 10 0 0 1 12 22A10 10 0 0 1 12 2Z',
  caution: 'M3 3H21V21H3Z',
};

export function AlertSign({ priority, over }: { priority: Priority; over: boolean }) {
  return (
    <svg class={over ? 'sign over' : 'sign'} viewBox="0 0 24 24" aria-hidden="true">
      <path class="shape" d={SHAPES[priority]} />
      <path class="stroke" d="M12 8V14M12 17V18" />
    </svg>
  );
}
