import { signal } from '@preact/signals';
import type { VNode } from 'preact';
import { words } from '../words.ts';

type View = () => VNode | null;

/** Milliseconds after the start at which what was left out of the first script is fetched, whether or not it was asked for. */
const SOON_MS = 1500;
const AGAIN_MS = 5000;

const PageComing = ({ failed }: { failed: boolean }) => (
  <main class="instruments">{failed ? words.pageNotCome : words.pageComing}</main>
);

/**
 * A page or part that is not in the first script: a slow phone shows the watch before it reads the rest. It is fetched by itself
 * soon after, so that it is there when the boat is not; until it has come, `Waiting` says so and keeps its room.
 */
export function late(
  load: () => Promise<View>,
  Waiting: (props: { failed: boolean }) => VNode | null = PageComing,
): View {
  const found = signal<View | undefined>(undefined);
  const failed = signal(false);
  const fetch = async () => {
    if (found.peek()) return;
    try {
      const view = await load();
      found.value = view;
    } catch {
      failed.value = true;
      setTimeout(() => void fetch(), AGAIN_MS);
    }
  };
  setTimeout(() => void fetch(), SOON_MS);
  return function Late() {
    const View = found.value;
    if (View) return <View />;
    void fetch();
    return <Waiting failed={failed.value} />;
  };
}
