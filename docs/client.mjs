// node docs/client.mjs [ws://localhost:8274]   prints the report as it changes, and every alert
import WebSocket from 'ws';

const boat = process.argv[2] ?? 'ws://localhost:8274';
let seq;
let lastWord = Date.now();

function call() {
  const since = seq === undefined ? '' : `&since=${seq}`;
  const socket = new WebSocket(`${boat}/live?page=client&name=example${since}`);
  socket.on('message', (text) => {
    const message = JSON.parse(text);
    seq = message.seq;
    lastWord = Date.now();
    if (message.type === 'snapshot') console.log(message.state.report);
    if (message.type === 'update' && message.set.report) console.log(message.set.report);
    if (message.type === 'event' && message.event.event === 'alert') console.log('ALERT', message.event.text);
    if (message.type === 'goodbye') console.log('NOBODY WATCHES:', message.reason);
  });
  const beat = setInterval(() => {
    socket.send(JSON.stringify({ type: 'pulse', visible: false, sound: false }));
    if (Date.now() - lastWord > 6000) socket.terminate();
  }, 2000);
  socket.on('error', () => {});
  socket.on('close', () => {
    clearInterval(beat);
    console.log('no word from the boat');
    setTimeout(call, 1000);
  });
}
call();
