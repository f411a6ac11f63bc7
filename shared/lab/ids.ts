/**
 * Branded identifiers. Every id is a UUIDv7 (RFC 9562 §5.7), so that ids made later sort later.
 * The brand keeps a step's id from being passed where an entry's is wanted; it exists only for the compiler.
 */
import { stringify, v7, validate, version } from 'uuid'

declare const brand: unique symbol
/** A UUIDv7 in its canonical lower-case text form, branded with the kind of thing it names. */
export type Id<Kind extends string> = string & { readonly [brand]: Kind }

export type LabId = Id<'lab'>
export type ProjectId = Id<'project'>
export type SourceId = Id<'source'>
export type CaptureId = Id<'capture'>
export type EntryId = Id<'entry'>
export type WithdrawalId = Id<'withdrawal'>
export type ProcedureId = Id<'procedure'>
export type StepId = Id<'step'>
export type PartId = Id<'part'>
export type LinkId = Id<'link'>
export type RevisionId = Id<'revision'>
export type ChangeId = Id<'change'>
export type FolderId = Id<'folder'>
export type MachineId = Id<'machine'>
export type MarkId = Id<'mark'>
export type VerdictId = Id<'verdict'>
export type StrikeId = Id<'strike'>
export type ParameterId = Id<'parameter'>
export type VersionId = Id<'version'>
export type RemarkId = Id<'remark'>
export type SilenceId = Id<'silence'>
export type LeftOutId = Id<'left out'>
export type FetchId = Id<'fetch'>
export type WindowId = Id<'window'>

/** Makes ids. A parameter of every domain function that needs one, so that a test can fix them. */
export interface IdMaker {
  /** A fresh id of the wanted kind, greater in text order than every id this maker gave before. */
  make<I extends Id<string>>(): I
}

/**
 * An id maker over a clock and a source of random bytes.
 *
 * Ids of one maker increase strictly, also within one millisecond and when the clock steps back:
 * the counter of RFC 9562 §6.2 (method 1) takes the place of time that did not pass.
 *
 * @param nowMs milliseconds since 1970-01-01T00:00:00Z
 * @param randomBytes gives that many random bytes (16 are asked for at a time)
 */
export function createIdMaker(nowMs: () => number, randomBytes: (count: number) => Uint8Array): IdMaker {
  let lastMs = 0
  let sequence = 0
  return {
    make<I extends Id<string>>(): I {
      const random = randomBytes(16)
      const now = Math.max(0, Math.floor(nowMs()))
      if (now > lastMs) {
        lastMs = now
        sequence = ((random[6]! << 16) | (random[7]! << 8) | random[8]!) & 0x7fffff
      } else {
        sequence = (sequence + 1) >>> 0
        if (sequence > 0xffffffff - 1) {
          sequence = 0
          lastMs += 1
        }
      }
      return v7({ msecs: lastMs, seq: sequence, random }) as I
    },
  }
}

/** Says whether a value is the text form of a UUIDv7. The kind cannot be seen in the text and is the caller's claim. */
export function isId<I extends Id<string>>(value: unknown): value is I {
  return typeof value === 'string' && validate(value) && version(value) === 7 && value === value.toLowerCase()
}

/**
 * The millisecond in which an id was made, by its maker's clock.
 * @returns milliseconds since 1970-01-01T00:00:00Z
 */
export function millisecondsOfId(id: Id<string>): number {
  return Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16)
}

/** The canonical text of sixteen bytes, unchecked; for tests with published vectors. */
export function idFromBytes<I extends Id<string>>(bytes: Uint8Array): I {
  return stringify(bytes) as I
}
