/**
 * Collections with queries and judgements, read in place (STANDARDS_DIR):
 *
 * - CACM (Glasgow IR test collections), documents, topics and judgements as Anserini has them. All of a document's page is
 *   its text, as in the published runs: abstract, date, authors, keywords, and the rows of citation numbers; the first
 *   paragraph is its title. The judgements name documents below 1,000 without leading zeros, which no document is called:
 *   as in the published runs these count as relevant and are never found.
 * - Manual pages of Debian 12: NAME lines as queries for their own page (which does not hold them), and requests of NL2Bash
 *   (https://github.com/TellinaTool/nl2bash) for the page of the command that answers them.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import type { FindDocument } from '../../../shared/find/document.ts'
import { textDocument } from '../find.ts'

const folder = join(
  process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../../shared/standards'),
  'ir',
)
export const hasCollections = existsSync(folder)

export interface JudgedQuery {
  readonly typed: string
  readonly relevant: ReadonlySet<string>
}

export interface KnownItem {
  readonly typed: string
  /** The id of the one document that is wanted. */
  readonly wanted: string
}

export function cacmDocuments(): FindDocument[] {
  return [...filesOfTar(gunzipSync(readFileSync(join(folder, 'cacm/cacm.tar.gz'))))]
    .filter(([name]) => /CACM-\d+\.html$/.test(name))
    .map(([name, page]) => {
      const [title = '', ...rest] = page
        .replace(/<\/?(?:html|pre)>/g, '')
        .trim()
        .split('\n\n')
      return textDocument({ id: /CACM-\d+/.exec(name)![0], title, text: rest.join('\n\n') })
    })
}

/** Those of the 64 queries that have relevant documents: 52. */
export function cacmQueries(): JudgedQuery[] {
  const relevant = new Map<string, Set<string>>()
  for (const line of linesOf('cacm/qrels.cacm.txt')) {
    const [topic = '', , document = '', grade = '0'] = line.split(' ')
    if (Number(grade) > 0) relevant.set(topic, (relevant.get(topic) ?? new Set()).add(document))
  }
  const topics = readFileSync(join(folder, 'cacm/topics.cacm.txt'), 'utf8').split('<DOC>').slice(1)
  return topics.flatMap((topic) => {
    const [, number = '', text = ''] = /<DOCNO>\s*(\d+)\s*<\/DOCNO>([^]*)<\/DOC>/.exec(topic) ?? []
    const judged = relevant.get(number)
    return judged ? [{ typed: text.trim(), relevant: judged }] : []
  })
}

interface ManualPage {
  readonly id: string
  readonly whatis: string
  readonly names: string
  readonly text: string
}

function manualPages(): ManualPage[] {
  const lines = gunzipSync(readFileSync(join(folder, 'manpages/manpages.jsonl.gz')))
    .toString('utf8')
    .trim()
  return lines.split('\n').map((line) => JSON.parse(line) as ManualPage)
}

/** Titled by the page's names; without the NAME line. */
export function manualDocuments(): FindDocument[] {
  return manualPages().map(({ id, names, text }) => textDocument({ id, title: names, text }))
}

export function nameLines(): KnownItem[] {
  return manualPages().map(({ id, whatis }) => ({ typed: whatis, wanted: id }))
}

export function requests(): KnownItem[] {
  return linesOf('manpages/nl2bash-queries.tsv').map((line) => {
    const [, typed = '', wanted = ''] = line.split('\t')
    return { typed, wanted }
  })
}

function linesOf(name: string): string[] {
  return readFileSync(join(folder, name), 'utf8').trim().split('\n')
}

/** Name and content of each file of a tar archive (POSIX ustar: blocks of 512 bytes, size in octal at 124). */
function* filesOfTar(tar: Buffer): Generator<[string, string]> {
  for (let at = 0; at + 512 <= tar.length;) {
    const name = tar.toString('latin1', at, at + 100).replace(/\0.*$/, '')
    const size = parseInt(tar.toString('latin1', at + 124, at + 136), 8)
    if (name === '' || Number.isNaN(size)) return
    yield [name, tar.toString('latin1', at + 512, at + 512 + size)]
    at += 512 + Math.ceil(size / 512) * 512
  }
}
