import type { Event } from '../events.ts';
import type { Mark } from '../watch/view.ts';
import type { StoryLine } from './night.ts';

const HOW: Record<Mark['how'], string> = {
  here: 'let go under the bow',
  position: 'told by its position',
  'bearing-and-distance': 'told by bearing and distance',
  track: 'found from the track',
  'set-back': 'moved to where the anchor dug in',
  'anchorage-file': 'from an anchorage file',
};

/** An event as a line of the story; alerts have a list of their own, and samples tell how she lay. */
export function storyOf(event: Event): StoryLine | undefined {
  switch (event.event) {
    case 'mark': {
      const { mark, by, t } = event;
      if (!mark) return { at: t, kind: 'aweigh', by, text: 'Aweigh.' };
      const text = `Mark ${HOW[mark.how]}, uncertain by ${mark.sigma.toFixed(1)} m.`;
      return { at: t, kind: 'mark', by, text };
    }
    case 'note':
      return { at: event.t, kind: 'note', text: event.text };
    case 'signal':
      return { at: event.t, kind: 'signal', by: event.by, text: event.signal };
    case 'weigh': {
      const { stay, cable, distance, out, t } = event;
      const parts = [
        ...(stay === undefined
          ? []
          : [
              stay === 'aweigh'
                ? 'aweigh'
                : `${stay.replaceAll('-', ' ')} stay`.replace('up and down stay', 'up and down'),
            ]),
        ...(cable === undefined ? [] : [`cable ${cable}`]),
        ...(distance === undefined ? [] : [`${distance.toFixed(0)} m to the anchor`]),
        ...(out === undefined ? [] : [`${out.toFixed(0)} m out`]),
      ];
      return { at: t, kind: 'weigh', text: `${parts.join(', ')}.` };
    }
    default:
      return undefined;
  }
}
