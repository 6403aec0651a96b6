/** Whether a gauge can be heard. */
export type GaugeState =
  | { readonly is: 'closed' }
  | { readonly is: 'open' }
  /** It was open and cannot be heard any more; one sentence says what to do. */
  | { readonly is: 'lost'; readonly why: string };

/** What a gauge has to say. */
export type GaugeNews =
  /** Its button was pressed: a reading to be taken, mm. */
  | { readonly kind: 'reading'; readonly thicknessMm: number; readonly method?: string }
  /** What it shows now, and the lowest value that stood still since the last reading was taken. */
  | { readonly kind: 'live'; readonly shownMm: number; readonly lowestMm?: number }
  | { readonly kind: 'state'; readonly state: GaugeState }
  /** It was asked and has not answered. */
  | { readonly kind: 'no-answer'; readonly why: string }
  /** A line as it came, understood or not. */
  | { readonly kind: 'line'; readonly line: string; readonly understood: boolean };

export type GaugeListener = (news: GaugeNews) => void;

/** A gauge that sends its readings by itself. */
export interface GaugeSource {
  readonly name: string;
  readonly state: GaugeState;
  /** Hears everything from now on; call the result to stop. */
  listen(listener: GaugeListener): () => void;
  /** Asks for a reading now; absent for a gauge that sends by itself. */
  readonly request?: (() => void) | undefined;
  /** The last live value was taken: the lowest is sought anew. */
  release(): void;
  /** Stops hearing it. */
  close(): Promise<void>;
}
