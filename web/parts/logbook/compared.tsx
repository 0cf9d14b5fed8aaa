import type { NightAlert, NightSummary } from '../../../shared/logbook/night.ts';
import type { Lived } from '../../../shared/logbook/rerun.ts';
import { joined, length } from '../../format.ts';
import type { Loaded } from '../../review/messages.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { words as common } from '../../words.ts';
import { AlertSign } from '../alerts/alertSign.tsx';
import { type Pair, pairs } from './compare.ts';
import { loudAt } from './loud.ts';
import { go, playing } from './opened.ts';
import { lasting, second } from './when.ts';

interface Props {
  was: Pick<Loaded, 'night' | 'raised'>;
  would: Lived;
}

/** Which alerts came, and which would have come: when, and how far she had gone by then. */
export function Compared({ was, would }: Props) {
  const rows = pairs(was.night.alerts, would.night.alerts);
  return (
    <table class="compared">
      <thead>
        <tr>
          <th scope="col">{words.alertColumn}</th>
          <th scope="col">{words.was}</th>
          <th scope="col">{words.wouldBe}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((pair) => (
          <Row key={`${pair.was?.id} ${pair.would?.id}`} pair={pair} was={was} would={would} />
        ))}
        <tr>
          <th scope="row">{words.farthestRow}</th>
          <td>{farthest(was.night.summary)}</td>
          <td>{farthest(would.night.summary)}</td>
        </tr>
      </tbody>
    </table>
  );
}

const farthest = ({ farthest: far }: NightSummary): string =>
  far ? joined(length(far.distance)) : common.unknown;

function Row({ pair, was, would }: Props & { pair: Pair }) {
  const alert = (pair.would ?? pair.was)!;
  return (
    <tr>
      <th scope="row">
        <AlertSign priority={alert.priority} over /> {common.alerts.kinds[alert.kind]}
      </th>
      <td>
        <Cell alert={pair.was} lived={was} />
      </td>
      <td>
        <Cell alert={pair.would} lived={would} beside={pair.was} />
      </td>
    </tr>
  );
}

interface CellProps {
  alert: NightAlert | undefined;
  lived: Pick<Lived, 'raised'>;
  beside?: NightAlert | undefined;
}

function Cell({ alert, lived, beside }: CellProps) {
  if (!alert) return <>{words.never}</>;
  const gone = lived.raised.find(({ id }) => id === alert.id)?.distance;
  const apart = beside ? loudAt(alert) - loudAt(beside) : 0;
  return (
    <>
      <button
        type="button"
        onClick={() => {
          playing.value = 0;
          go(loudAt(alert));
        }}
      >
        {second(loudAt(alert))}
      </button>
      {Math.abs(apart) >= 1 && (
        <span class="strong"> {(apart < 0 ? words.earlier : words.later)(lasting(Math.abs(apart)))}</span>
      )}
      <span class="note"> {gone === undefined ? words.wentUnknown : words.wentAt(joined(length(gone)))}</span>
    </>
  );
}
