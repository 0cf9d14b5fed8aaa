import { lookup } from 'node:dns/promises';
import { existsSync } from 'node:fs';
import { isIP } from 'node:net';
import type { Config } from '../config/schema.ts';
import { nameOutputs } from '../config/sections/raise.ts';
import { portFault } from '../intake/ports.ts';
import { findProgram } from '../raise/process.ts';
import { type Finding, fault, good, look } from './finding.ts';

/** Whether every way out for alerts can work as far as that shows without sounding: programs, devices, names of hosts. */
export async function checkHorn({ raise, supervise, instruments }: Config): Promise<Finding[]> {
  const outputs = nameOutputs(raise);
  const listened = instruments.flatMap((one) => ('serial' in one ? [one.serial] : []));
  const findings: Finding[] = [];
  if (outputs.length === 0)
    findings.push(
      look('horn', 'there is none: only pages sound', 'add raise.outputs to hawse.yaml: docs/horn.md'),
    );
  for (const output of outputs) {
    const { id } = output;
    const faults: Finding[] = [];
    if (output.kind === 'command')
      for (const argv of 'run' in output ? [output.run] : [output.on, output.off])
        faults.push(...(await program(id, argv)));
    else if (output.kind === 'serial') {
      const denied = await portFault(output.path);
      if (denied) faults.push(fault('horn', `${id}: ${denied.text}`, denied.cure));
      else if (listened.includes(output.path))
        faults.push(
          fault(
            'horn',
            `${id}: ${output.path} is an input too`,
            'a port can be opened once: use another one',
          ),
        );
    } else {
      const host = output.kind === 'udp' ? output.host : new URL(output.url).hostname;
      if (!(await resolves(host)))
        faults.push(
          fault(
            'horn',
            `${id}: the name ${host} is not known here`,
            'write its number, or see to the network',
          ),
        );
    }
    findings.push(...faults);
    if (faults.length === 0)
      findings.push(good('horn', `${id}: can be used; sound it on the page to be sure`));
  }
  for (const argv of supervise.run)
    findings.push(...(await program('supervise.run', argv as [string, ...string[]])));
  return findings;
}

const SOUND = /\.(wav|mp3|ogg|oga|flac|au)$/i;

async function program(id: string, [name, ...args]: readonly [string, ...string[]]): Promise<Finding[]> {
  const findings: Finding[] = [];
  const missing = await findProgram(name);
  if (missing)
    findings.push(
      fault(
        'horn',
        `${id}: ${missing}`,
        `install it (aplay: sudo apt install alsa-utils), or name it with its whole path`,
      ),
    );
  for (const arg of args)
    if (SOUND.test(arg) && !existsSync(arg))
      findings.push(
        fault(
          'horn',
          `${id}: there is no file ${arg}`,
          'put a sound there, or name another; with its whole path',
        ),
      );
  return findings;
}

const resolves = async (host: string): Promise<boolean> =>
  isIP(host.replace(/^\[|\]$/g, '')) !== 0 ||
  lookup(host).then(
    () => true,
    () => false,
  );
