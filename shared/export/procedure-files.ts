/** The files that a procedure sets down, each as a file of its own, with a manifest that says where each belongs. */
import type { PhrasingContent, RootContent, TableCell, TableRow } from 'mdast'
import { contentOf, diffOf } from '../journal/files/content.ts'
import type { FileState } from '../lab/model.ts'
import { toOneLine } from '../markdown/words.ts'
import { fillPlaceholders, type Values } from '../procedure/values/placeholders.ts'
import { ArchiveNames } from './archive-names.ts'
import { heading, paragraph } from './layout.ts'
import { text } from './nodes.ts'
import { serialiseMarkdown } from './serialise.ts'

/** A part that sets down a file. */
export interface FilePart {
  /** "Step 3". */
  readonly where: string
  readonly file: FileState
  /** Markdown with the file's fence. */
  readonly text: string
  /** The bytes of a file that is no text; null where they are not kept any more. */
  readonly bytes: Uint8Array | null
}

export interface OwnFile extends Pick<FilePart, 'where'> {
  /** Within the archive, with `/` between folders. */
  readonly name: string
  /** With its values filled in; of a difference the file that it is against. */
  readonly file: Pick<FileState, 'path' | 'owner' | 'group' | 'mode' | 'form'>
  readonly bytes: Uint8Array
  /** Lower-case hex. */
  readonly sha256: string
  /** Names of parameters whose placeholders are left in it. */
  readonly missing: readonly string[]
}

export interface OwnFiles {
  readonly files: readonly OwnFile[]
  readonly leftOut: readonly { readonly where: string; readonly path: string; readonly why: string }[]
}

export const MANIFEST = 'MANIFEST.md'

/**
 * The files of a procedure in its order. No file has the name `__proto__`, which writers of archives take for something else.
 * @param values for the placeholders in contents, paths and owners
 */
export async function ownFilesOf(
  parts: readonly FilePart[],
  values: Values,
  sha256: (bytes: Uint8Array) => Promise<string>,
): Promise<OwnFiles> {
  const names = new ArchiveNames([MANIFEST, '__proto__'])
  const files: OwnFile[] = []
  const leftOut: OwnFiles['leftOut'][number][] = []
  for (const part of parts) {
    const file = fillState(part.file, values)
    const held = heldBy(part, values)
    if (typeof held === 'string') {
      leftOut.push({ where: part.where, path: file.path, why: held })
      continue
    }
    const name = names.take(file.path, file.form === 'diff' ? '.diff' : '')
    files.push({ where: part.where, name, file, ...held, sha256: await sha256(held.bytes) })
  }
  return { files, leftOut }
}

/** @returns why it holds nothing, where it does not */
function heldBy(
  { file, text, bytes }: FilePart,
  values: Values,
): Pick<OwnFile, 'bytes' | 'missing'> | string {
  if (file.blob !== null) return bytes ? { bytes, missing: [] } : 'its bytes are not kept any more'
  const source = file.form === 'diff' ? diffOf(text) : contentOf(text, file)
  if (source === undefined) return file.form === 'diff' ? 'it holds no difference' : 'it holds no content'
  const filled = fillPlaceholders(source, values)
  return { bytes: new TextEncoder().encode(filled.text), missing: filled.missing }
}

function fillState(file: FileState, values: Values): FileState {
  const filled = (words: string): string => fillPlaceholders(words, values).text
  const maybe = (words: string | null): string | null => (words === null ? null : filled(words))
  return { ...file, path: filled(file.path), owner: maybe(file.owner), group: maybe(file.group) }
}

/** What the archive holds, for who unpacks it. */
export function toManifest(title: string, { files, leftOut }: OwnFiles): string {
  const head = ['In this archive', 'Belongs to', 'Owner', 'Mode', 'SHA-256', 'Set down by']
  const rows = files.map((one) => [
    code(one.name),
    code(one.file.path),
    text(ownerOf(one.file) || 'not said'),
    text(one.file.mode ?? 'not said'),
    code(one.sha256),
    text(one.where),
  ])
  const table: RootContent = { type: 'table', align: [], children: [head.map(text), ...rows].map(toRow) }
  const diffs = files.filter(({ file }) => file.form === 'diff')
  const open = files.filter(({ missing }) => missing.length > 0)
  const notes = [
    ...(diffs.length > 0
      ? ['A file whose name ends in .diff is a difference to apply to the file that it belongs to.']
      : []),
    ...open.map(({ name, missing }) => `${name} still waits for ${missing.join(', ')}.`),
    ...leftOut.map(
      ({ where, path, why }) => `${toOneLine(path) || 'A file'} of ${where} was left out: ${why}.`,
    ),
  ]
  return serialiseMarkdown({
    type: 'root',
    children: [
      heading(1, [text(`Files of: ${toOneLine(title)}`)]),
      ...(files.length === 0 ? [] : [table]),
      ...notes.map((note) => paragraph(text(note))),
    ],
  })
}

const ownerOf = ({ owner, group }: OwnFile['file']): string =>
  (owner ?? group) ? `${toOneLine(owner ?? '?')}${group ? `:${toOneLine(group)}` : ''}` : ''

const code = (value: string): PhrasingContent => ({ type: 'inlineCode', value: toOneLine(value) || '?' })

const toRow = (cells: readonly PhrasingContent[]): TableRow => ({
  type: 'tableRow',
  children: cells.map((cell): TableCell => ({ type: 'tableCell', children: [cell] })),
})
