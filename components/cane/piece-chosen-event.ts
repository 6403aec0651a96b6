/** A piece of a lot was come to: what stands beside the chart follows. */
export class PieceChosenEvent extends Event {
  readonly pieceId: string;

  constructor(pieceId: string) {
    super('bench-piece-chosen');
    this.pieceId = pieceId;
  }
}
