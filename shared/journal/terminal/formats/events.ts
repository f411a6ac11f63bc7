/** What a recording of a terminal says, piece by piece, whichever format it is kept in. */

/** `typescript`: of script(1), util-linux or BSD. `asciicast`: version 2. `plain`: bytes as a terminal got them, nothing else. */
export type LogFormat = 'typescript' | 'asciicast' | 'plain'

/** Times are milliseconds since 1970-01-01T00:00:00Z; null where neither the recording nor an arrival tells them. */
export type LogEvent =
  | {
      /** Comes first, and again where a further session was appended to the same file. */
      readonly kind: 'opened'
      readonly format: LogFormat
      /** The terminal's width and height; null where the recording does not say them and the person has to be asked. */
      readonly columns: number | null
      readonly rows: number | null
      readonly startedMs: number | null
    }
  | { readonly kind: 'output'; readonly atMs: number | null; readonly bytes: Uint8Array }
  | {
      readonly kind: 'resize'
      readonly atMs: number | null
      readonly columns: number
      readonly rows: number
    }
  /** A mark that somebody set while recording. */
  | { readonly kind: 'mark'; readonly atMs: number | null; readonly label: string }
  /** The recording says that its session ended. */
  | { readonly kind: 'ended'; readonly atMs: number | null; readonly exitCode: number | null }
  /** What was left out or could not be read, for the person. */
  | { readonly kind: 'note'; readonly sentence: string }
  | RefusedLog

/** It is no recording that can be read. Nothing follows, and what came before is to be dropped. */
export interface RefusedLog {
  readonly kind: 'refused'
  readonly code: 'empty' | 'binary' | 'version' | 'keys' | 'timing-file'
  readonly sentence: string
}

/** Reads one recording, in pieces of any size. After `refused` it gives nothing more. */
export interface RecordingReader {
  /** @param arrivedMs when these bytes were seen to arrive, where they are read as they are written; else null */
  push(bytes: Uint8Array, arrivedMs: number | null): readonly LogEvent[]
  /** Takes further bytes of the timing file that belongs to the recording. Others than a typescript have none. */
  pushTiming(bytes: Uint8Array): readonly LogEvent[]
  /** Nothing more comes. */
  end(): readonly LogEvent[]
}

export function refuse(code: RefusedLog['code'], sentence: string): RefusedLog {
  return { kind: 'refused', code, sentence }
}

export function note(sentence: string): LogEvent {
  return { kind: 'note', sentence }
}
