import { readdirSync, readFileSync } from 'node:fs';
import { localPlane } from '../../shared/earth/local.ts';
import { strongest } from '../../shared/watch/drag/bank.ts';
import { watchAnchor } from '../../shared/watch/drag/drag.ts';
import { movedAlongPull } from '../../shared/watch/drag/evidence.ts';
import * as model from '../../shared/watch/drag/model.ts';
import { createWatch } from '../../shared/watch/state.ts';

const overrides = JSON.parse(process.argv[2] ?? '{}');
const filter = process.argv[3] ?? '';
const traceFile = process.argv[4];
for (const [k, v] of Object.entries(overrides)) {
  const path = k.split('.');
  let o: any = model;
  for (const p of path.slice(0, -1)) o = o[p];
  o[path.at(-1)!] = v;
}
const q = (v: number[], p: number) =>
  [...v].sort((a, b) => a - b)[Math.min(v.length - 1, Math.floor(p * v.length))] ?? NaN;
const STEPS = Array.from({ length: 80 }, (_, i) => i * 0.5);
const res: any[] = [];
for (const f of readdirSync('/tmp/nights').sort()) {
  if (!f.includes(filter)) continue;
  const n = JSON.parse(readFileSync('/tmp/nights/' + f, 'utf8'));
  const state: any = createWatch();
  const at0 = n.rows[0][0];
  state.phase = 'watching';
  state.mark = { ...n.mark, sigma: 3, at: at0 + 3, by: 'x', how: 'anchorage-file' };
  const settings = n.settings;
  const L = settings.cable.veered;
  const plane = localPlane(n.mark);
  const r: any = { f, kind: n.kind, held: n.held, plain: [], clair: [], final: n.rows.at(-1)[10], alarms: 0 };
  const run = (first: any[], counts: number[], value: number, moved: number) => {
    for (let i = 0; i < STEPS.length; i++) {
      counts[i] = value > STEPS[i]! ? (counts[i] ?? 0) + 1 : 0;
      if (counts[i]! >= 3) first[i] ??= moved;
    }
  };
  const pc: number[] = [],
    cc: number[] = [];
  let lastLevel: any;
  for (const [at, lat, lon, depth, ws, wf, sog, cog, doubt, heading, moved, load, ce, cn, ps] of n.rows) {
    if (at < at0 + 3) continue;
    const k = (value: any) =>
      value === null || value === undefined ? undefined : { value, at, age: 0, source: 'x' };
    const v: any = {
      at,
      roller: { value: { lat, lon }, at, sigma: 2, source: 'x' },
      antenna: { value: { lat, lon }, at, source: 'x' },
      ages: {},
      sources: {},
      positionSigma: ps,
    };
    if (depth !== null) v.depth = { value: { measured: depth, surface: depth }, at };
    if (ws !== null) v.windGround = k({ from: wf, speed: ws });
    if (sog !== null) v.sog = k(sog);
    if (cog !== null) v.cog = k(cog);
    if (heading !== null) v.heading = { ...k(heading), sigma: 3 };
    if (doubt) v.positionDoubt = { reason: 'x', since: at };
    watchAnchor(state, settings, v);
    const d = state.drag;
    if (d?.level === 'alarm' && lastLevel !== 'alarm') {
      r.alarms++;
      if (r.drag === undefined) {
        r.drag = moved;
        r.at = (at - at0) / 60;
        r.why = d.why;
      }
    }
    if (d?.level && r.caution === undefined) r.caution = moved;
    lastLevel = d?.level;
    const loc = plane.toLocal({ lat, lon });
    const dist = Math.hypot(loc.east, loc.north);
    const h = settings.boat.roller.height + 7;
    if (doubt) continue;
    run(r.plain, pc, dist - Math.sqrt(L * L - h * h), moved);
    run(r.clair, cc, Math.hypot(ce, cn), moved);
    if (traceFile && f.includes(traceFile) && Math.floor(at) % 60 === 0 && d?.pull) {
      const b = strongest(d.bank);
      const m = movedAlongPull(d, b ? b.filter : d.bank.holds);
      console.log(
        ((at - at0) / 60).toFixed(0),
        'dist',
        dist.toFixed(1),
        'ws',
        ws?.toFixed(1),
        'truth',
        moved.toFixed(1),
        'est',
        m.value.toFixed(1),
        '±',
        m.sigma.toFixed(1),
        'log',
        b?.log.toFixed(1),
        ((at - (b?.since ?? at)) / 60).toFixed(0),
        'sc',
        d.bank.scatter.toFixed(2),
        'x',
        d.bank.holds.x.map((y: number) => y.toFixed(1)).join(' '),
        'load',
        load.toFixed(0),
        doubt,
      );
    }
  }
  res.push(r);
}
const held = res.filter((r) => r.held),
  drag = res.filter((r) => !r.held);
const kinds = [...new Set(res.map((r) => (r.held ? 'H ' : 'D ') + r.kind))];
for (const kd of kinds) {
  const rs = res.filter((r) => (r.held ? 'H ' : 'D ') + r.kind === kd);
  console.log(
    kd.padEnd(24),
    rs
      .map((r) =>
        r.held
          ? r.alarms
            ? `F@${r.at.toFixed(0)}x${r.alarms}`
            : r.caution !== undefined
              ? 'c'
              : '-'
          : `${r.drag?.toFixed(1) ?? 'MISS'}/${r.final.toFixed(0)}`,
      )
      .join(' '),
  );
}
const show = (name: string, pick: (r: any) => number | undefined) => {
  const m = drag.map(pick).filter((x) => x !== undefined) as number[];
  console.log(
    name.padEnd(26),
    'FA',
    held.filter((r) => pick(r) !== undefined).length,
    '/',
    held.length,
    'missed',
    drag.length - m.length,
    'median',
    q(m, 0.5)?.toFixed(1),
    'p90',
    q(m, 0.9)?.toFixed(1),
    'worst',
    q(m, 1)?.toFixed(1),
  );
};
show('drag', (r) => r.drag);
show('plain+10', (r) => r.plain[20]);
const fa = held.filter((r) => r.drag !== undefined).length;
for (let i = 0; i < 80; i++)
  if (held.filter((r) => r.plain[i] !== undefined).length <= Math.max(fa, held.length * 0.02)) {
    show('plain quiet +' + STEPS[i], (r) => r.plain[i]);
    break;
  }
for (let i = 0; i < 80; i++)
  if (held.filter((r) => r.clair[i] !== undefined).length <= held.length * 0.04) {
    show('clairvoyant ' + STEPS[i], (r) => r.clair[i]);
    break;
  }
if (!traceFile) for (const r of held) if (r.alarms) console.log(r.f, r.at.toFixed(0), r.why);
