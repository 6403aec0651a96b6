/** Two passes of one reed, by their places in the model's list. */
export interface PassPair {
  readonly before: number;
  readonly after: number;
}
