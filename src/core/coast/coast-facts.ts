/** What is to be known of a coastline, for the assumptions of an answer. Errors in metres, against a finer version of the same coast. */
export interface CoastFacts {
  readonly name: string;
  /** The day on which the set was made, ISO; the surveys in it are older. */
  readonly madeOn: string;
  readonly medianErrorMetres: number;
  readonly ninetiethErrorMetres: number;
  readonly licence: string;
}
