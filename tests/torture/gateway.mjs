// A gateway for the trial of the unit: a fix a second on port 19994, for whoever connects.
import { createServer } from 'node:net';

const checksum = (body) =>
  [...body]
    .reduce((sum, letter) => sum ^ letter.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, '0');

function fix() {
  const now = new Date().toISOString();
  const date = now.slice(2, 10).split('-').reverse().join('');
  const body = `GPRMC,${now.slice(11, 22).replaceAll(':', '')},A,3600.00000,S,16330.00000,E,0.1,,${date},,,A`;
  return `$${body}*${checksum(body)}\r\n`;
}

createServer((socket) => {
  const timer = setInterval(() => socket.write(fix()), 1000);
  socket.on('error', () => undefined);
  socket.on('close', () => clearInterval(timer));
}).listen(19994, '127.0.0.1');
