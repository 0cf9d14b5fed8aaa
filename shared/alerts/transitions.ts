import type { AlertState } from './alert.ts';

export type Trigger = 'raise' | 'acknowledge' | 'silence' | 'silence-timeout' | 'rectify';

/**
 * Which state follows which. An absent cell: nothing happens, or a person is told why not. Letters of IEC 61162-1 ALF: V
 * active-unacknowledged, S active-silenced, A active-acknowledged, U rectified-unacknowledged, N normal. The table reads
 * MSC.302(87) and IEC 62923-1 as we understand them [P/M]; "responsibility transferred" (O) has no use on a boat with one
 * place of command. A caution needs no acknowledgement: it is raised as A (that letter stands for "active–acknowledged or
 * active") and goes straight to N.
 */
export const TRANSITIONS: Record<Trigger, Partial<Record<AlertState, AlertState>>> = {
  raise: {
    'rectified-unacknowledged': 'active-unacknowledged',
    normal: 'active-unacknowledged',
  },
  acknowledge: {
    'active-unacknowledged': 'active-acknowledged',
    'active-silenced': 'active-acknowledged',
    'rectified-unacknowledged': 'normal',
  },
  silence: { 'active-unacknowledged': 'active-silenced' },
  'silence-timeout': { 'active-silenced': 'active-unacknowledged' },
  rectify: {
    'active-unacknowledged': 'rectified-unacknowledged',
    'active-silenced': 'rectified-unacknowledged',
    'active-acknowledged': 'normal',
  },
};

export const isUnacknowledged = (state: AlertState): boolean =>
  state === 'active-unacknowledged' || state === 'active-silenced' || state === 'rectified-unacknowledged';

export const isActive = (state: AlertState): boolean =>
  state !== 'rectified-unacknowledged' && state !== 'normal';
