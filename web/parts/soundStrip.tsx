import { computed, signal } from '@preact/signals';
import { sound, switchOn } from '../sound.ts';
import { keepAwake, wake } from '../wake.ts';
import { words } from '../words.ts';

/** Whether a person has said that the test signal was heard: only ears can tell about volume and mute switches. */
const heard = signal(false);

export const soundWord = computed(
  () =>
    ({
      off: words.sound.off,
      starting: words.sound.starting,
      running: words.sound.running,
      broken: words.sound.broken,
    })[sound.value],
);

export function tapForSound(): void {
  heard.value = false;
  void switchOn();
  keepAwake();
}

/** Says what is missing before this screen can wake anybody, with the tap that mends it. Gone once it was heard. */
export function SoundStrip() {
  if (sound.value === 'running' || sound.value === 'starting') return heard.value ? null : <Confirm />;
  return (
    <section class="strip" aria-label={words.sound.on}>
      <p>{sound.value === 'broken' ? words.sound.lost : words.sound.none}</p>
      <button type="button" class="primary" onClick={tapForSound}>
        {words.sound.on}
      </button>
    </section>
  );
}

function Confirm() {
  return (
    <section class="strip" aria-label={words.sound.on}>
      <p>
        {words.sound.confirm} {wake.value === 'held' ? words.sound.awake : words.sound.sleeps}
      </p>
      <button
        type="button"
        onClick={() => {
          heard.value = true;
        }}
      >
        {words.sound.heard}
      </button>
    </section>
  );
}
