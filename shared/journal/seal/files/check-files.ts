/** Checks an exported journal's files, as check.sh does. */
import { fail, succeed, type Failure, type Result } from '../../../lab/result.ts'
import { fromUtf8, sha256Of } from '../canonical.ts'
import { digestsIn, maybeBody, takenIn } from '../chain.ts'
import type { SealBody, SealHead } from '../model.ts'
import { NO_SEAL, sealOf } from '../seal.ts'
import { journalText, struckIn } from './journal-text.ts'
import { HEAD, JOURNAL, SUMS, sealPath, sumsText, textPath, type Files } from './layout.ts'

export type FilesFailure = Failure<'broken'>

const broken = (what: string): FilesFailure =>
  fail('broken', `This exported journal does not hold: ${what}. Nothing was changed; use another copy of it.`)

/**
 * Checks all files of an exported journal.
 * @param noted heads that were noted earlier
 * @returns the head and the number of seals made late
 */
export function checkFiles(
  files: Files,
  noted: readonly SealHead[] = [],
): Result<{ readonly head: SealHead; readonly late: number }, FilesFailure> {
  const sums = new Map([...files].map(([path, bytes]) => [path, sha256Of(bytes)]))
  sums.delete(SUMS)
  if (textOf(files, SUMS) !== sumsText(sums))
    return broken('a file was changed, added or removed since SHA256SUMS was written')
  const chain = readBodies(files)
  if (!chain.ok) return chain
  const { bodies, heads } = chain.value
  const head = heads.at(-1) ?? { number: 0, hash: NO_SEAL }
  if (textOf(files, HEAD) !== `${head.number} ${head.hash}\n`)
    return broken('HEAD.txt does not name the last seal')
  const wrong = maybeWrongNames(sums) ?? maybeWrongTexts(bodies, files)
  if (wrong !== null) return broken(wrong)
  if (textOf(files, JOURNAL) !== journalText(bodies, files))
    return broken('journal.md does not say what the seals and the texts say')
  const off = noted.find(({ number, hash }) => heads[number - 1]?.hash !== hash)
  return off
    ? broken(`the head ${off.number} ${off.hash} is not in it: it was made anew, or cut off before that head`)
    : succeed({ head, late: bodies.filter(({ late }) => late).length })
}

const textOf = (files: Files, path: string): string | null => {
  const bytes = files.get(path)
  return bytes ? fromUtf8(bytes) : null
}

function readBodies(files: Files): Result<{ bodies: SealBody[]; heads: SealHead[] }, FilesFailure> {
  const bodies: SealBody[] = []
  const heads: SealHead[] = []
  const count = [...files.keys()].filter((path) => path.startsWith('seals/')).length
  for (let number = 1; number <= count; number++) {
    const text = textOf(files, sealPath(number))
    const body = text === null ? null : maybeBody(text)
    if (!body) return broken(`seal ${number} is not there or cannot be read`)
    if (body.number !== number || body.before !== (heads.at(-1)?.hash ?? NO_SEAL))
      return broken(`seal ${number} does not follow the seal before it`)
    bodies.push(body)
    heads.push({ number, hash: sealOf(body).hash })
  }
  return succeed({ bodies, heads })
}

/** Texts and blobs stand under their own SHA-256. */
function maybeWrongNames(sums: ReadonlyMap<string, string>): string | null {
  const wrong = [...sums].find(
    ([path, sha256]) =>
      (path.startsWith('texts/') && path !== textPath(sha256)) ||
      (path.startsWith('blobs/') && path !== `blobs/${sha256}`),
  )
  return wrong ? `${wrong[0]} is not what its name says` : null
}

function maybeWrongTexts(bodies: readonly SealBody[], files: Files): string | null {
  const struck = struckIn(bodies)
  const named = new Set(bodies.flatMap(({ record }) => [...digestsIn(record).values()]))
  for (const sha256 of named)
    if (!files.has(textPath(sha256)) && !struck.has(sha256))
      return `the text ${sha256} is missing, and no strike says why`
  for (const sha256 of struck.keys())
    if (files.has(textPath(sha256))) return 'the salt of a text that was struck is still there'
  if (bodies.some((body) => takenIn(body).some(({ matched }) => !matched)))
    return 'a text was changed before something was struck out of it'
  const extra = [...files.keys()].find((path) => path.startsWith('texts/') && !named.has(path.slice(6, -4)))
  return extra ? `${extra} is named by no seal` : null
}
