import type { Connection } from '../../shared/gauge.ts';
import type { GaugeSource } from './gauge-source.ts';
import { SerialGauge } from './serial-gauge.ts';
import type { SerialLike } from './serial-port.ts';

/**
 * Hears the taught gauge on a port that the maker allowed before, without asking again: now where it is plugged in, and
 * whenever it is plugged in anew.
 *
 * @param inUse The gauge heard now: one that is open is left alone.
 * @param use Told of the gauge before it is opened.
 * @param signal Ends the watch; a gauge that is open stays so.
 */
export async function hearChosenPort(
  serial: SerialLike,
  connection: Connection,
  inUse: () => GaugeSource | undefined,
  use: (gauge: GaugeSource) => void,
  signal: AbortSignal,
): Promise<void> {
  const open = async () => {
    const [port] = await serial.getPorts();
    if (!port || signal.aborted || inUse()?.state.is === 'open') return;
    const gauge = new SerialGauge('Gauge', connection);
    use(gauge);
    await gauge.open(port);
  };
  serial.addEventListener('connect', () => void open(), { signal });
  await open();
}
