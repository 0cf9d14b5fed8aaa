import type { Alert, AlertKind } from '../../shared/alerts/alert.ts';
import { decode } from '../../shared/sentences/decode.ts';
import { splitLine } from '../../shared/sentences/split.ts';
import { identifier, instanceOf, ON_THE_BUS } from './numbers.ts';

/** What an alert display asks, read from one line. `why`: an order to us that cannot be followed. */
export type Heard =
  | { do: 'acknowledge' | 'silence' | 'query'; sentence: 'ACN' | 'ACK'; ids: string[] }
  | { do: 'nothing'; sentence: 'ACN' | 'ACK'; why: string };

const ORDERS = { A: 'acknowledge', S: 'silence', Q: 'query' } as const;

const kindOf = (number: number): AlertKind | undefined =>
  (Object.keys(ON_THE_BUS) as AlertKind[]).find((kind) => ON_THE_BUS[kind].number === number);

/**
 * Orders in a line of sentences: ACN by maker, identifier and instance, ACK by the number of an ALR. A checksum is required: an
 * order that ends an alarm must not come out of noise. Other sentences, and those to other makers' alerts, are none of ours.
 */
export function hearOrders(line: string, manufacturer: string, alerts: readonly Alert[]): Heard[] {
  return splitLine(line).flatMap((piece): Heard[] => {
    const decoded = decode(piece, { requireChecksum: true });
    if (!decoded.ok) return [];
    return decoded.observations.flatMap((observation): Heard[] => {
      if (observation.kind !== 'alert-sentence') return [];
      const { sentence } = observation;
      if (sentence.id === 'ACK') {
        const kind = kindOf(Number(sentence.alertId));
        const ids = alerts.filter((alert) => alert.kind === kind).map(({ id }) => id);
        return [order('acknowledge', 'ACK', ids, `ALR ${sentence.alertId}`)];
      }
      if (sentence.id !== 'ACN' || sentence.manufacturer !== manufacturer) return [];
      const { command, alertId, instance } = sentence;
      if (!isOrder(command)) {
        return [
          {
            do: 'nothing',
            sentence: 'ACN',
            why: 'Responsibility for an alert cannot be taken over (ACN O).',
          },
        ];
      }
      const kind = kindOf(Number(alertId) - identifier(0));
      const ids = alerts
        .filter((alert) => alert.kind === kind)
        .filter(({ id }) => instance === undefined || instanceOf(id) === Number(instance))
        .map(({ id }) => id);
      return [order(ORDERS[command], 'ACN', ids, `${alertId}/${instance ?? 'any'}`)];
    });
  });
}

const isOrder = (command: string): command is keyof typeof ORDERS => Object.hasOwn(ORDERS, command);

function order(
  what: 'acknowledge' | 'silence' | 'query',
  sentence: 'ACN' | 'ACK',
  ids: string[],
  named: string,
): Heard {
  if (ids.length > 0) return { do: what, sentence, ids };
  return { do: 'nothing', sentence, why: `There is no alert ${named} now.` };
}
