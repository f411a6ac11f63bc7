/** From the words of a command line to what arrives: files, addresses of our scheme, refusals. Without Electron. */
import { stat } from 'node:fs/promises'
import { basename, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { largestArrival, largestFileBytes, refusedFile } from '../shared/host.ts'
import { folderBounds } from '../shared/intake/folder-rules.ts'
import { isOfLinkScheme, readHandedOver, type HandedOver } from '../shared/intake/handed-over.ts'
import { walkFolder, type FoundFile } from './folders.ts'
import { toReason } from './sentences.ts'
import type { Words } from './words.ts'

/** Where a file lies: by itself, or by its relative name in a folder that it must not lead out of. */
export type Whereabouts =
  | { readonly kind: 'alone'; readonly path: string }
  | { readonly kind: 'inside'; readonly folder: string; readonly name: string }

/** What has arrived and waits to be taken by a window. */
export type Arrived =
  | { readonly kind: 'file'; readonly file: FoundFile; readonly place: Whereabouts }
  | ({ readonly kind: 'handed over' } & HandedOver)
  | { readonly kind: 'refused'; readonly sentence: string }

/** What some words name, in their order; at most `most` things and one sentence about the rest. */
export async function arrivedOf(
  { words, folder }: Words,
  most = largestArrival,
): Promise<readonly Arrived[]> {
  const arrived: Arrived[] = []
  for (const [at, word] of words.entries()) {
    const room = most - arrived.length
    if (room <= 0) return [...arrived, beyond(words.length - at)]
    arrived.push(...(await namedBy(word, folder, room)))
  }
  return arrived
}

/** The sentence about what is more than arrives at once. */
export function beyond(count: number): Arrived {
  const rest = count === 1 ? 'One more file or link was' : `${count} more files or links were`
  const sentence = `${rest} not taken in, since at most ${largestArrival} come in at once this way. They are unchanged. Take the folder that they are in with “Choose a folder”.`
  return { kind: 'refused', sentence }
}

async function namedBy(word: string, folder: string, room: number): Promise<readonly Arrived[]> {
  if (isOfLinkScheme(word)) {
    const read = readHandedOver(word)
    return [read.ok ? { kind: 'handed over', ...read.value } : { kind: 'refused', sentence: read.sentence }]
  }
  const path = maybePath(word, folder)
  if (path === null) return [notTaken(word, 'it does not name a file of this machine')]
  try {
    const stats = await stat(path)
    if (stats.isDirectory()) return await filesOfFolder(path, room)
    if (!stats.isFile()) return [notTaken(word, 'it is neither a file nor a folder')]
    const file = { name: basename(path), size: stats.size, modifiedMs: Math.floor(stats.mtimeMs) }
    return [withinLimit(file, { kind: 'alone', path })]
  } catch (error) {
    return [notTaken(word, toReason(error))]
  }
}

/** Desktops name files by their paths or, as in the freedesktop.org Desktop Entry Specification, by file: addresses. */
function maybePath(word: string, folder: string): string | null {
  if (!/^file:/i.test(word)) return resolve(folder, word)
  try {
    const address = new URL(word)
    // A host would be another machine, which is asked for nothing.
    return address.host === '' ? fileURLToPath(address) : null
  } catch {
    return null
  }
}

async function filesOfFolder(folder: string, room: number): Promise<readonly Arrived[]> {
  const { files, notes } = await walkFolder(folder, { files: room, depth: folderBounds.depth })
  const arrived = files.map((file) =>
    withinLimit(
      { ...file, name: `${basename(folder)}/${file.name}` },
      { kind: 'inside', folder, name: file.name },
    ),
  )
  return [...arrived, ...notes.map((sentence) => ({ kind: 'refused', sentence }) as const)]
}

function withinLimit(file: FoundFile, place: Whereabouts): Arrived {
  if (file.size <= largestFileBytes) return { kind: 'file', file, place }
  const refused = refusedFile(file.name, file.size, largestFileBytes)
  return { kind: 'refused', sentence: refused.kind === 'refused' ? refused.sentence : '' }
}

function notTaken(word: string, why: string): Arrived {
  const shown = Array.from(word).slice(0, 200).join('')
  const sentence = `“${shown}” was not taken in: ${why}. Nothing in the lab was changed. See whether the file is still there, and add it again.`
  return { kind: 'refused', sentence }
}
