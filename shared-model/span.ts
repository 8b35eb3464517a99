/** A stretch of one source file: UTF-16 offsets from the file's start, `end` exclusive. */
export interface Span {
  readonly path: string;
  readonly start: number;
  readonly end: number;
}
