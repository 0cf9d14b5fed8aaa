import { readFileSync } from 'node:fs';

/** A process and all below it: the daemon has a small one above it that watches it. */
function family(pid: number): number[] {
  const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim();
  return [pid, ...(children === '' ? [] : children.split(' ')).flatMap((child) => family(Number(child)))];
}

const sum = (pid: number, of: (one: number) => number): number =>
  family(pid).reduce((total, one) => total + of(one), 0);

/** Hundredths of a second of processor time, so per second: per cent of a core. */
export const jiffies = (pid: number): number =>
  sum(pid, (one) => {
    const fields = readFileSync(`/proc/${one}/stat`, 'utf8').split(') ')[1]!.split(' ');
    return Number(fields[11]) + Number(fields[12]);
  });

export const megabytes = (pid: number): number =>
  sum(pid, (one) => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${one}/status`, 'utf8'))?.[1]) / 1024);
