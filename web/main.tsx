import './styles/palette.css';
import './styles/base.css';
import './styles/shell.css';
import './styles/page-bar.css';
import './styles/watch.css';
import './styles/plan.css';
import './styles/lying.css';
import './styles/alerts.css';
import './styles/instruments.css';
import './styles/phones.css';
import './styles/planner.css';
import './styles/around.css';
import './styles/tide.css';
import './styles/foredeck.css';
import './styles/helm.css';
import './styles/check.css';
import './styles/phone.css';
import './styles/horn.css';
import './styles/setup.css';
import './styles/logbook.css';
import { effect } from '@preact/signals';
import { render } from 'preact';
import { App, currentPage } from './app.tsx';
import { createConnection } from './connection.ts';
import { startHeartbeat } from './heartbeat.ts';
import { lastGap, shown } from './live.ts';
import { noteAlive } from './phone/asleep.ts';
import { pushDeadman } from './phone/deadman.ts';
import { keepShell } from './phone/update.ts';
import { tendWakeLock } from './phone/wake.ts';
import { path } from './router.ts';
import { sounds } from './sounding.ts';

const pageId = () => currentPage()?.id ?? 'unknown';
const connection = createConnection(pageId());

startHeartbeat(
  (monotonicMs) => {
    connection.tick(monotonicMs);
    sounds(monotonicMs);
    pushDeadman();
    tendWakeLock(monotonicMs);
    noteAlive(monotonicMs);
  },
  (from, to) => {
    lastGap.value = { from, to, why: 'asleep' };
    connection.restart(true);
  },
);
connection.restart();

effect(() => {
  path.value;
  connection.showing(pageId());
});

effect(() => {
  // An alarm sounds with the message that brings it, not half a second later.
  if (shown.value) sounds(performance.now());
});

document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'visible') connection.restart();
});

render(<App />, document.getElementById('page')!);

void keepShell();
