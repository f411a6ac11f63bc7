/** Taking in PDFs: their words as Markdown, with the place of each page. */
import type { Refused } from '../taken.ts'
import { maxPdfBytes, maxPdfPages, maxTextBytes } from '../limits.ts'
import { broken, nothingStated, tooLarge, type Intake } from '../taken.ts'
import { titleOfName, toTitle } from '../text.ts'
import { toBlocks, type Block } from './blocks.ts'
import { authorOf, datedOf, maybeTitle } from './facts.ts'
import { readPdf, type PdfFailure, type PdfWays, type RawPdf } from './open.ts'
import { toFlows } from './columns.ts'
import { withoutRunningLines } from './running-lines.ts'
import { writeBlocks } from './write.ts'

/** Says whether a file begins as a PDF does: readers look for its header in the first KiB (ISO 32000-1 Annex H, note 13). */
export function isPdf(name: string, beginning: string): boolean {
  return (
    beginning.startsWith('%PDF-') || (/\.pdf$/iu.test(name) && beginning.slice(0, 1024).includes('%PDF-'))
  )
}

/** Takes in the bytes of a PDF. Nothing in it is run or fetched; the bytes are left as they are. */
export async function intakePdf(name: string, bytes: Uint8Array, ways: PdfWays): Promise<Intake> {
  if (bytes.length > maxPdfBytes) return tooLarge(name, bytes.length, maxPdfBytes)
  const raw = await readPdf(bytes, ways)
  if (!raw.ok) return refuse(name, raw)
  if (raw.pages.length === 0 || raw.unread.length === raw.pages.length)
    return broken(name, 'is a PDF without a page that can be read')
  if (raw.pages.every((page) => page.length === 0)) return withoutText(name)
  const { pages, notes } = withoutRunningLines(raw.pages.map((runs) => ({ flows: toFlows(runs) })))
  const blocks = toBlocks(pages, raw.outline)
  const written = writeBlocks(blocks, labelsOf(raw))
  if (written.text.length > maxTextBytes) return tooMuchText(name)
  return {
    ok: true,
    title: toTitle(maybeTitle(raw.info) ?? maybeFirstHeading(blocks) ?? '') || titleOfName(name),
    address: null,
    kind: 'pdf',
    text: written.text,
    mediaType: 'application/pdf',
    ...nothingStated,
    author: authorOf(raw.info),
    dated: datedOf(raw.info),
    pages: written.pages,
    notes: [...notes, ...pageNotes(raw), ...signNotes(written.text), ...endNotes(bytes)],
  }
}

function labelsOf({ pages, labels }: RawPdf): readonly string[] {
  return pages.map((_, i) => labels?.[i]?.trim() || String(i + 1))
}

/** The largest heading on the first page. */
function maybeFirstHeading(blocks: readonly Block[]): string | undefined {
  const first = blocks[0]?.rows[0]?.page
  const headings = blocks.filter(({ kind, rows }) => kind === 'heading' && rows[0]!.page === first)
  const size = (block: Block): number => block.rows[0]!.row.size
  const largest = headings.reduce<Block | undefined>(
    (one, other) => (one && size(one) >= size(other) ? one : other),
    undefined,
  )
  return largest?.rows.map(({ row }) => row.text).join(' ')
}

function refuse(name: string, failure: PdfFailure): Refused {
  switch (failure.code) {
    case 'locked':
      return {
        ok: false,
        code: 'locked',
        sentence: `“${name}” is locked with a password. The file is unchanged, and nothing was added: open it in another program with its password, save it there without one and add that file.`,
      }
    case 'too-slow':
      return broken(name, 'is a PDF with a page that could not be read within half a minute')
    case 'too-many-pages':
      return tooLong(name, `has ${failure.count} pages; up to ${maxPdfPages} can be taken in at once`)
    case 'too-much-text':
      return tooMuchText(name)
    case 'broken':
      return broken(name, 'begins as a PDF does, but is damaged or cut off, and no page of it can be read')
  }
}

function tooMuchText(name: string): Refused {
  return tooLong(name, 'holds more text than can be taken in at once')
}

function tooLong(name: string, what: string): Refused {
  return {
    ok: false,
    code: 'too-large',
    sentence: `“${name}” ${what}. The file is unchanged, and nothing was added: save the pages that you need as a file of their own and add that.`,
  }
}

function withoutText(name: string): Refused {
  return {
    ok: false,
    code: 'empty',
    sentence: `“${name}” holds pictures of pages and no text, as a scan does. The file is unchanged, and nothing was added: let a program for text recognition add the text, or add the pages as pictures.`,
  }
}

function pageNotes({ pages, unread }: RawPdf): readonly string[] {
  const empty = pages.flatMap((page, i) => (page.length === 0 && !unread.includes(i + 1) ? [i + 1] : []))
  const say = (places: readonly number[], one: string, many: string): string[] => {
    if (places.length === 0) return []
    const first = places.slice(0, 8).join(', ') + (places.length > 8 ? ' and others' : '')
    return [places.length === 1 ? `Page ${first} ${one}` : `Pages ${first} ${many}`]
  }
  return [
    ...say(unread, 'could not be read.', 'could not be read.'),
    ...say(empty, 'holds no text.', 'hold no text.'),
  ]
}

/** Fonts may tell nothing of the characters that they draw; what comes of them is in no writing. */
function signNotes(text: string): readonly string[] {
  const strange = text.match(/[\p{Co}\p{Cn}\p{Cc}\ufffd]/gu)?.filter((sign) => sign !== '\n').length ?? 0
  if (strange === 0 || strange * 20 < text.length) return []
  return [
    'Some of its fonts do not say which characters they draw, so parts of the text can’t be read. See the original.',
  ]
}

/** ISO 32000-1 §7.5.5: the last line is `%%EOF`. */
function endNotes(bytes: Uint8Array): readonly string[] {
  const end = String.fromCharCode(...bytes.subarray(-2048))
  return end.includes('%%EOF')
    ? []
    : ['The file has no end, so pages may be missing: it was damaged or only half saved.']
}
