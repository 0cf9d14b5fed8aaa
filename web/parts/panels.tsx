import { shown } from '../live.ts';
import { AroundPanel } from './around/aroundPanel.tsx';
import { MarkPanel } from './markPanel.tsx';
import { WatchPanel } from './watchPanel.tsx';
import { WeighPanel } from './weighPanel.tsx';

/** What is set and told on the watch page, each to open when it is needed. */
export function Panels() {
  const state = shown.value;
  if (!state) return null;
  return (
    <>
      <MarkPanel state={state} />
      <WatchPanel state={state} />
      <AroundPanel />
      <WeighPanel state={state} />
    </>
  );
}
