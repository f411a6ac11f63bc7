/** A manual page's source, man(7) or mdoc(7), as the tree that is read of it. */
import { wordsOf } from '../../../markdown/words.ts'
import type { RootContent } from 'mdast'
import { settleLists } from '../blocks.ts'
import { aboutOf, maybeStatedDate, titleOfPage, type Found } from '../found.ts'
import { mdocFor } from '../mdoc/mdoc.ts'
import { rawRequests } from './blocks-raw.ts'
import { Exhausted } from './budget.ts'
import { Machine } from './machine.ts'
import { manMacros, type Head } from './man.ts'
import { requests } from './requests.ts'

/** Where a page must have begun: a macro that says what page it is. Preambles of some programs are long. */
const headWithin = 100_000
const head = /^[.'][ \t]*(?:TH|Dd)(?:[ \t]|$)/mu
const comment = /^[.']?\s*(?:\\["#].*)?$/u

/** man(7) and mdoc(7): it begins with a control line or a comment, and `.TH` or `.Dd` stands near its beginning. */
export function isRoffPage(text: string): boolean {
  const start = text.slice(0, headWithin)
  return /^\s*(?:[.']|\\)/u.test(start) && head.test(start)
}

/** The page that a source only points to (`.so man8/mdadm.8`). */
export function maybePointer(text: string): string | undefined {
  if (text.length > 5000) return undefined
  const lines = text.split('\n').filter((line) => !comment.test(line))
  return lines.length === 1 ? /^[.']so[ \t]+(\S+)\s*$/u.exec(lines[0]!)?.[1] : undefined
}

export type PageRead = { readonly ok: true; readonly found: Found } | { readonly ok: false }

/** @returns not ok where the page asks for more steps, depth or blocks than any page needs */
export function readRoffPage(source: string): PageRead {
  try {
    return { ok: true, found: read(source) }
  } catch (error) {
    if (error instanceof Exhausted) return { ok: false }
    throw error
  }
}

function read(source: string): Found {
  const machine = new Machine(source.replace(/\n$/u, '').split('\n'), { requests, raw: rawRequests })
  const isMdoc = /^[.'][ \t]*Dd(?:[ \t]|$)/mu.test(source.slice(0, headWithin))
  const { head, authors, name } = isMdoc ? readMdoc(machine) : readMan(machine)
  const content = machine.flow.root
  settleLists(content)
  const stated = aboutOf(namePartOf(content))
  const page = `${toName(head.title, name ?? stated.name)}${head.section === '' ? '' : `(${head.section})`}`
  return {
    title: titleOfPage(page, stated.about),
    content,
    author: authors.length === 0 ? null : authors.join(', '),
    dated: maybeStatedDate(head.date),
    notes: machine.notes,
  }
}

interface Stated {
  readonly head: Head
  readonly authors: readonly string[]
  readonly name: string | undefined
}

function readMan(machine: Machine): Stated {
  let head: Head = { title: '', section: '', date: '' }
  machine.macros = manMacros((one) => (head = head.title === '' ? one : head))
  machine.run()
  return { head, authors: [], name: undefined }
}

/** `.An` names authors, and nothing else, within the section that says who they are. */
function readMdoc(machine: Machine): Stated {
  const mdoc = mdocFor(machine)
  machine.macros = mdoc.macros
  machine.run()
  return { head: mdoc.head, authors: mdoc.state.authors, name: mdoc.state.name }
}

/** The words of the first section. */
function namePartOf(content: readonly RootContent[]): string {
  const start = content.findIndex(({ type }) => type === 'heading')
  const next = content[start + 1]
  return next?.type === 'paragraph' ? wordsOf(next) : ''
}

/** Titles are often all capitals; the name as it is typed stands in the first section. */
function toName(title: string, name: string | undefined): string {
  if (name !== undefined && name.toLowerCase() === title.toLowerCase()) return name
  return title === title.toUpperCase() ? title.toLowerCase() : title
}
