import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Place } from '../../shared/blade.ts';
import type { Station } from '../../shared/grid.ts';
import type { Id } from '../../shared/ids.ts';
import type { Pass } from '../../shared/pass.ts';
import type { Reed } from '../../shared/reed.ts';
import type { Act, Round } from '../../shared/round.ts';
import { knownOverallMm } from '../../src/reed/overall-lengths.ts';
import type { FittedReed } from '../../src/answers/fitted-reed.ts';
import { inventedThicknessMm } from '../../src/gauge-lines/invented-blade.ts';
import { expectationBeside } from '../../src/round/beside.ts';
import { doubtfulPlaces } from '../../src/round/doubtful-places.ts';
import { expectationAt } from '../../src/answers/expectation.ts';
import { lastCounts } from '../../src/ledger/late-acts.ts';
import type { ActDraft } from '../../src/ledger/store.ts';
import type { PlacesBefore } from '../../src/answers/concurrent/fit-request.ts';
import { expectationByReeds } from '../../src/round/expected-at.ts';
import { foldRound } from '../../src/round/fold-round.ts';
import { countFor, type GaugeCount } from '../../src/round/gauge-count.ts';
import { olderReadings } from '../../src/round/older-readings.ts';
import type { OfferedPlan } from '../../src/round/own-plans.ts';
import {
  bladeLengthOf,
  fullMap,
  halfWidthOf,
  overallLengthOf,
  plansOf,
} from '../../src/round/rounds-of-reed.ts';
import { replacedInRound, withHistory } from '../../src/round/replaced.ts';
import { passFromRound } from '../../src/round/round-to-pass.ts';
import { UnkeptFaults } from '../faults/unkept-faults.ts';
import { browserSerial, type SerialLike } from '../gauge/serial-port.ts';
import { SimulatedGauge } from '../gauge/simulated-gauge.ts';
import '../pass-details/pass-details.ts';
import type { PassDetails, PassDetailsChangeEvent } from '../pass-details/pass-details.ts';
import { LibraryController } from '../store/library-controller.ts';
import { gaugeInUse } from '../store/gauge-in-use.ts';
import type { LibraryStore } from '../store/library-store.ts';
import { beginRound } from './begin-round.ts';
import type { ReadPlace } from './odd-readings.ts';
import type { RoundCountEvent, RoundEndEvent, RoundFinishEvent } from './round-events.ts';
import { GaugeEar } from './gauge-ear.ts';
import './lent-reed.ts';
import './round-gauge.ts';
import type { RoundScreen } from './round-screen.ts';
import './round-screen.ts';
import './round-start.ts';
import type { OfferedShort } from './short-start.ts';
import type { RoundStartEvent } from './round-start-event.ts';

/** As many places as one reads in half a minute. Common practice, no source. */
const DOUBTFUL_PLACES = 8;
/** A dial that reads hundredths. Common practice, no source. */
const USUAL_STEP_MM = 0.01;
/** Scatter of the simulated gauge, one standard deviation. Invented. */
const SIMULATED_SCATTER_MM = 0.004;

/**
 * A round of one reed, over the library around it: begins one or goes on with the one that waits, keeps every act, and
 * makes the pass when it is finished.
 *
 * @event bench-round-put-down - From the round: the maker leaves.
 * @event bench-round-kept - The round has become a pass.
 */
@customElement('bench-reed-round')
export class ReedRound extends LitElement {
  private readonly library = new LibraryController(this);
  private loading: Id | undefined;
  private fitted: Id | undefined;
  private benched: FittedReed | undefined;
  private about: PassDetails = {};
  private unfollow: (() => void) | undefined;
  /** What the readings show to be wrong, while the reed is still in the hand. */
  private readonly faults = new UnkeptFaults(this, this.library);

  @query('bench-round') private readonly screen!: RoundScreen | null;
  @state() private round: Round | undefined;
  /** What is known of the places of the pass that is, or is to be, read. */
  @state() private known: PlacesBefore | undefined;
  @state() private doubtful: readonly Station[] = [];
  @state() private acts: readonly Act[] = [];
  @state() private chosenCount: GaugeCount | undefined;

  @property({ attribute: false }) reedId: Id | undefined;
  /** The browser's Web Serial, or a stand-in. */
  @property({ attribute: false }) serial: SerialLike | undefined = browserSerial();

  constructor() {
    super();
    new GaugeEar(this, this.library);
  }

  override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('reedId')) this.round = undefined;
    const { store } = this.library;
    const reed = this.reedId === undefined ? undefined : store?.reed(this.reedId);
    if (!store || !reed) return;
    if (this.fitted !== reed.id) this.fit(store, reed);
    if (this.round) return;
    const waiting = store.openRoundOf(reed.id);
    if (waiting && waiting.id !== this.loading) void this.open(store, waiting);
  }

  /** Fits the reed when the page has time; until then nothing is expected, and no place is doubtful. */
  private fit(store: LibraryStore, reed: Reed) {
    this.fitted = reed.id;
    this.benched = undefined;
    this.known = undefined;
    this.doubtful = [];
    const passes = store.passesOf(reed.id);
    if (!store.openRoundOf(reed.id)) void this.knowPlaces(store, reed, gaugeInUse(store));
    if (passes.length === 0) return;
    store.models.bench(reed, passes).then(
      (benched) => {
        if (this.fitted !== reed.id || !benched.model) return;
        this.benched = benched;
        this.doubtful = doubtfulPlaces(benched.model, fullMap(reed, passes), DOUBTFUL_PLACES);
      },
      () => undefined,
    );
  }

  /** What may be expected of the next pass, worked out beside the page; without it no round is short and nothing is expected. */
  private async knowPlaces(store: LibraryStore, reed: Reed, about: Round['about'], begun?: Round) {
    const passes = store.passesOf(reed.id);
    const known = await store.models.places(reed, passes, about, begun).catch(() => undefined);
    if (this.fitted === reed.id) this.known = known ?? NOTHING_KNOWN;
  }

  private async open(store: LibraryStore, round: Round) {
    this.loading = round.id;
    try {
      const reed = store.reed(round.reedId)!;
      const knowing = this.knowPlaces(store, reed, round.about, round);
      this.acts = await store.ledger.actsOf(round.id);
      if (round.short) await knowing;
      this.round = round;
      this.faults.look(undefined);
      this.follow(store, round.id);
    } catch (error) {
      store.tell(error);
    } finally {
      this.loading = undefined;
    }
  }

  /** Readings that another window or another device takes in this round come to stand here too. */
  private follow({ ledger }: LibraryStore, roundId: Id) {
    this.unfollow?.();
    this.unfollow = ledger.onChange((change) => {
      if (change.what !== 'acts' || change.roundId !== roundId || (change.here && !change.isShared)) return;
      void ledger.actsOf(roundId).then((acts) => {
        if (this.round?.id === roundId) this.acts = acts;
      });
    });
  }

  override disconnectedCallback() {
    super.disconnectedCallback();
    this.unfollow?.();
  }

  private plans(store: LibraryStore, reed: Reed): readonly OfferedPlan[] {
    const offered = plansOf(reed, store.passesOf(reed.id), store.snapshot.live.grid);
    const { doubtful } = this;
    return doubtful.length === 0
      ? offered
      : [...offered, { name: 'Where doubt is largest', stations: doubtful }];
  }

  private readonly keepAct = (draft: ActDraft) => {
    const { ledger, readerName } = this.library.store!;
    return ledger.appendAct(draft.act === 'taken' && readerName ? { ...draft, by: readerName } : draft);
  };

  private async handleStart({ plan, short }: RoundStartEvent) {
    const { store } = this.library;
    if (store && this.reedId !== undefined) await beginRound(store, this.reedId, plan, this.about, short);
  }

  private async handleFinish({ acts, zeroAfterMm }: RoundFinishEvent) {
    const { store } = this.library;
    const { round } = this;
    if (!store || !round) return;
    const current = store.openRoundOf(round.reedId) ?? round;
    const pass = {
      ...passFromRound(current, foldRound(current, acts)),
      id: store.ledger.newId(),
      remedies: [...this.faults.remedies],
      ...withHistory(undefined, replacedInRound(acts)),
    };
    const drafts = [
      {
        ...pass,
        ...(zeroAfterMm !== undefined && { zeroAfterMm }),
        ...(current.invented && { invented: true as const }),
      },
      { ...current, closedAs: pass.id, closedWith: lastCounts(acts) },
    ];
    const kept = await store.keep(drafts, `pass ${round.passIndex}`, {
      roundId: round.id,
      count: acts.length,
    });
    if (kept) this.dispatchEvent(new Event('bench-round-kept'));
  }

  private expectation(round: Round, place: Place, others: readonly ReadPlace[] = []) {
    const { benched } = this;
    const before = benched && expectationAt(benched, place, overallLengthOf(round.about, benched.passes));
    const byReeds = () => this.known && expectationByReeds(this.known.known, place, others);
    return before ?? byReeds() ?? expectationBeside(place, others);
  }

  /** Reads what the reed's surface would be after a usual go with the knife, or an invented blade. */
  private simulated(round: Round, stepMm: number): SimulatedGauge {
    return new SimulatedGauge({
      thicknessMm: (place) => this.expectation(round, place)?.valueMm ?? inventedThicknessMm(place),
      place: () => this.screen?.place,
      random: Math.random,
      scatterMm: SIMULATED_SCATTER_MM,
      stepMm,
    });
  }

  override render() {
    const { store, choices } = this.library;
    const reed = this.reedId === undefined ? undefined : store?.reed(this.reedId);
    if (!store || !reed) return nothing;
    if (store.lent.has(reed.id))
      return html`<bench-lent-reed reed-label=${reed.label} reed-id=${reed.id}></bench-lent-reed>`;
    const { round } = this;
    if (!round) {
      if (store.openRoundOf(reed.id)) return nothing;
      const rounds = store.snapshot.live.round.filter(({ reedId }) => reedId === reed.id);
      const read = store.passesOf(reed.id);
      const last = read.at(-1);
      const overallLengthMm = knownOverallMm(read, read.length - 1);
      const plans = this.plans(store, reed);
      const lastPlan = rounds.findLast(
        ({ plan, short }) => short ?? plans.some(({ name }) => name === plan),
      )?.plan;
      return html`<bench-round-start
        reed-label=${reed.label}
        last-plan=${lastPlan ?? 'Full map'}
        .plans=${plans}
        .short=${this.known && offeredShort(this.known, rounds)}
        ?working-out=${!this.known}
        .writing=${choices}
        @bench-round-start=${this.handleStart}
      >
        <bench-pass-details
          .zones=${store.styleOf(reed.styleId).zones}
          .last=${{ ...last, ...(overallLengthMm !== undefined && { overallLengthMm }) }}
          .decimal=${choices.decimal}
          @bench-pass-details-change=${({ details }: PassDetailsChangeEvent) => (this.about = details)}
        ></bench-pass-details>
      </bench-round-start>`;
    }
    const passes = store.passesOf(reed.id);
    const stepMm = store.snapshot.live.gauge.at(-1)?.stepMm ?? USUAL_STEP_MM;
    const count = this.chosenCount ?? countFor(stepMm, choices.unit);
    return html`<bench-round
      reed-label=${reed.label}
      .round=${round}
      .acts=${this.acts}
      .short=${this.known?.short}
      .keep=${this.keepAct}
      .newId=${store.ledger.newId}
      .gauge=${store.gauge}
      .count=${count}
      .sounds=${choices.sounds}
      .takes=${choices.takes}
      .digits=${choices.digits}
      .decimal=${choices.decimal}
      .bladeLengthMm=${bladeLengthOf(reed, passes)}
      .halfWidthMm=${halfWidthOf(reed, passes)}
      .older=${olderReadings(store.wholePassesOf(reed.id) ?? [], overallLengthOf(round.about, passes))}
      .expecting=${(place: Place, others: readonly ReadPlace[]) => this.expectation(round, place, others)}
      @bench-round-count=${(event: RoundCountEvent) => (this.chosenCount = event.count)}
      @bench-round-end=${({ acts }: RoundEndEvent) => this.faults.look(endedPass(round, acts))}
      @bench-round-finish=${this.handleFinish}
    >
      <div slot="end">${this.faults.render()}</div>
      <bench-round-gauge
        slot="gauge"
        .source=${store.gauge}
        ?can-simulate=${reed.invented === true}
        .count=${count}
        .decimal=${choices.decimal}
        @bench-gauge-simulate=${() => store.useGauge(this.simulated(round, stepMm))}
        @click=${() => this.screen?.focus()}
      ></bench-round-gauge>
    </bench-round>`;
  }
}

const NOTHING_KNOWN: PlacesBefore = {
  known: { places: [], ways: [], titles: [], questions: { zones: [], blend: [], balance: [], plan: [] } },
  choices: [],
};

/** What a short round may be asked, and what the last one was. */
function offeredShort({ known, choices }: PlacesBefore, rounds: readonly Round[]): OfferedShort {
  const last = rounds.findLast(({ short }) => short)?.short;
  const reeds = known.ways[0]?.reeds;
  return {
    places: known.places,
    choices,
    ...(reeds !== undefined && { reeds }),
    ...(last && { last }),
  };
}

/** The pass that a round becomes, before it is kept: the round's identifier stands for it, and its acts tell its states apart. */
function endedPass(round: Round, acts: readonly Act[]): Pass {
  const { id, createdAt, updatedAt, formatVersion } = round;
  const stamp = { id, createdAt, updatedAt, formatVersion, versions: { [id]: acts.length } };
  return { ...passFromRound(round, foldRound(round, acts)), ...stamp };
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-reed-round': ReedRound;
  }
}
