import type { Connection, Gauge } from '../../shared/gauge.ts';
import type { GaugeSource } from './gauge-source.ts';
import { ACROSS_SHADOWS } from '../across-shadows.ts';

/** A check of the gauge was made. */
export class GaugeCheckEvent extends Event {
  readonly check: Omit<Gauge['checks'][number], 'takenAt'>;

  constructor(check: GaugeCheckEvent['check']) {
    super('bench-gauge-check', ACROSS_SHADOWS);
    this.check = check;
  }
}

/** A repeat study was made: readings by place. */
export class GaugeStudyEvent extends Event {
  readonly stations: readonly (readonly number[])[];

  constructor(stations: GaugeStudyEvent['stations']) {
    super('bench-gauge-study', ACROSS_SHADOWS);
    this.stations = stations;
  }
}

/** What the maker knows of a gauge without reading anything. */
export type GaugeFacts = Pick<
  Gauge,
  'name' | 'tongueMm' | 'seatingSdMm' | 'placementSdMm' | 'ballDiameterMm' | 'forceN'
>;

/** What the maker knows of the gauge was typed; a fact left blank is undefined, and forgotten. */
export class GaugeFactsEvent extends Event {
  readonly facts: Partial<GaugeFacts>;

  constructor(facts: Partial<GaugeFacts>) {
    super('bench-gauge-facts', ACROSS_SHADOWS);
    this.facts = facts;
  }
}

/** The maker taught how the gauge is plugged in and what it sends. */
export class GaugeConnectionEvent extends Event {
  readonly connection: Connection;

  constructor(connection: Connection) {
    super('bench-gauge-connection', ACROSS_SHADOWS);
    this.connection = connection;
  }
}

/** A gauge was plugged in, and is to be heard from now on. */
export class GaugePlugEvent extends Event {
  readonly gauge: GaugeSource;

  constructor(gauge: GaugeSource) {
    super('bench-gauge-plug');
    this.gauge = gauge;
  }
}
