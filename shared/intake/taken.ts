import type { PageStart, SourceKind } from '../lab/model.ts'
import type { Moment } from '../lab/moment.ts'
import { bytesLabel } from './limits.ts'

/** What was taken in, ready to become a source and its capture. */
export interface TakenIn {
  readonly ok: true
  readonly title: string
  /** Absolute http or https URL, where what came in names one. */
  readonly address: string | null
  readonly kind: Exclude<SourceKind, 'link'>
  /** Markdown, or plain text as it was; empty for a picture. Line ends `\n`, no U+0000, well-formed UTF-16. */
  readonly text: string
  /** Media type (RFC 6838) of what came in. */
  readonly mediaType: string
  /** Who wrote it, as the document states: one line. */
  readonly author: string | null
  /** The date that the document states of itself, in ISO 8601: a date, a month or a year, or a date with its time. */
  readonly dated: string | null
  /** When the file says that it was saved. */
  readonly saved: Moment | null
  /** Where each page of a paged document begins in the text; empty for every other. */
  readonly pages: readonly PageStart[]
  /** Sentences about what was changed or left out on the way. */
  readonly notes: readonly string[]
}

export type RefusalCode = 'too-large' | 'not-text' | 'empty' | 'too-deep' | 'broken' | 'locked'

/** Nothing was taken in; the sentence says why and what is safe. */
export interface Refused {
  readonly ok: false
  readonly code: RefusalCode
  readonly sentence: string
}

/** The answer about one text or page. */
export type Intake = TakenIn | Refused

/** What a document says of itself, where it says nothing. */
export const nothingStated = { author: null, dated: null, saved: null, pages: [] } as const

export function tooLarge(name: string, bytes: number, limit: number): Refused {
  const sentence = `“${name}” has ${bytesLabel(bytes)}; up to ${bytesLabel(limit)} can be taken in at once. The file is unchanged: split it, or take the lines that you need from it.`
  return { ok: false, code: 'too-large', sentence }
}

export function tooManyElements(name: string, elements: number, limit: number): Refused {
  const sentence = `“${name}” consists of ${elements} elements; up to ${limit} can be read. Nothing was added: open it in a browser, select what you need and paste it.`
  return { ok: false, code: 'too-large', sentence }
}

export function notText(name: string, what: string): Refused {
  return {
    ok: false,
    code: 'not-text',
    sentence: `“${name}” ${what}, so there is nothing to read in it. The file is unchanged, and nothing was added.`,
  }
}

export function empty(name: string): Refused {
  return {
    ok: false,
    code: 'empty',
    sentence: `“${name}” holds no words that could be read. Nothing was added.`,
  }
}

export function tooDeep(name: string, limit: number): Refused {
  const sentence = `“${name}” nests more than ${limit} elements within each other and can't be read as a page. Nothing was added: open it in a browser, select what you need and paste it.`
  return { ok: false, code: 'too-deep', sentence }
}

/** @param what what is wrong with it, as the end of a sentence about it */
export function broken(name: string, what: string): Refused {
  return {
    ok: false,
    code: 'broken',
    sentence: `“${name}” ${what}. The file is unchanged, and nothing was added: save or download it once more.`,
  }
}
