/** The files of a procedure leave the program, each as a file of its own, in one archive. */
import { zipSync, type Zippable } from 'fflate'
import { MANIFEST, ownFilesOf, toManifest, type FilePart } from '../../../shared/export/procedure-files.ts'
import { toFileName, type HostResult } from '../../../shared/host.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { fillPlaceholders, type Values } from '../../../shared/procedure/values/placeholders.ts'
import { SecretScan, type SecretFound } from '../../../shared/safety/secrets/scan.ts'
import type { Queries } from '../../db/queries.ts'
import { letFileOut } from '../../leaving/index.ts'
import type { Workspace } from '../../store/workspace.ts'
import { labFileTools } from '../../workers/labZip.ts'
import type { ShownProcedure } from './shown.ts'
import { untitled } from './words.ts'

export type SavedFiles =
  { kind: 'saved'; name: string; count: number; leftOut: number } | { kind: 'cancelled' }

const none: Values = new Map()

/** How many files a procedure sets down. */
export function countFiles({ steps }: ShownProcedure): number {
  return steps.flatMap(({ parts }) => parts).filter(({ part }) => part.file !== null).length
}

/**
 * Writes the files into a zip where the person chooses.
 * @param shown as it is kept: values are filled in here, since what a file holds is no Markdown
 * @param named values that may stand in the archive's name and title
 */
export async function saveOwnFiles(
  workspace: Workspace,
  shown: ShownProcedure,
  values: Values = none,
  named: Values = none,
): Promise<HostResult<SavedFiles>> {
  const parts = await filePartsOf(workspace.requireLab().queries, shown)
  const own = await ownFilesOf(parts, values, labFileTools.sha256)
  const title = plainWords(fillPlaceholders(shown.title?.text ?? '', named).text, 80)
  const tree: [string, Uint8Array][] = [
    [MANIFEST, labFileTools.encode(toManifest(title || untitled, own))],
    ...own.files.map(({ name, bytes }): [string, Uint8Array] => [name, bytes]),
  ]
  const saved = await letFileOut(
    workspace,
    { found: secretsIn(tree), what: 'The archive' },
    {
      suggestedName: `${toFileName(`Files of ${title}`, 'Files of a procedure')}.zip`,
      mediaType: 'application/zip',
      bytes: toArchive(tree),
    },
  )
  if (!saved.ok || saved.value.kind === 'cancelled') return saved as HostResult<{ kind: 'cancelled' }>
  return { ok: true, value: { ...saved.value, count: own.files.length, leftOut: own.leftOut.length } }
}

/** A file that is no text has no words that could be read in it. */
function secretsIn(files: readonly (readonly [string, Uint8Array])[]): SecretFound[] {
  const scan = new SecretScan()
  for (const [, bytes] of files) scan.read(new TextDecoder().decode(bytes))
  return scan.found
}

/** A fixed moment, so that equal files give equal archives. */
function toArchive(files: readonly (readonly [string, Uint8Array])[]): Uint8Array {
  // Names of objects' own properties, as `__proto__`, are names of files like others.
  const tree = Object.create(null) as Zippable
  for (const [name, bytes] of files) tree[name] = [bytes, { level: 6, mtime: '2000-01-01T00:00:00Z' }]
  return zipSync(tree)
}

async function filePartsOf(queries: Queries, { steps }: ShownProcedure): Promise<FilePart[]> {
  const parts = steps.flatMap(({ number, parts: own }) =>
    own.flatMap(({ part, text }) => (part.file ? [{ where: `step ${number}`, file: part.file, text }] : [])),
  )
  return Promise.all(
    parts.map(async (one) => ({
      ...one,
      bytes: one.file.blob === null ? null : ((await queries.findBlob(one.file.blob))?.bytes ?? null),
    })),
  )
}

/** What was written, for the person. */
export function wordsOfFiles({ name, count, leftOut }: Extract<SavedFiles, { kind: 'saved' }>): string {
  const files = count === 1 ? '1 file' : `${count} files`
  const rest =
    leftOut === 0 ? '' : ` ${leftOut === 1 ? '1 was' : `${leftOut} were`} left out; the manifest says why.`
  return `${files} and a manifest were written to “${name}”.${rest}`
}
