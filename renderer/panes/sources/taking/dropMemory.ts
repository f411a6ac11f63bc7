/** Which files of the drop folder were taken in before. Kept with the lab; each file is taken once. */
import type { DropFile } from '../../../../shared/host.ts'
import type { SourceId } from '../../../../shared/lab/ids.ts'

/** A state of a file that was looked at, whether or not anything came of it. */
export interface SeenFile {
  readonly size: number
  readonly modifiedMs: number
  /** What it became; null where it could not be read. */
  readonly source: SourceId | null
}

export interface DropMemory {
  /** The folder that the names belong to. */
  readonly path: string
  readonly files: Readonly<Record<string, SeenFile>>
  /** Lower-case hex SHA-256 of all bytes that were taken in from any drop folder of the lab. */
  readonly digests: readonly string[]
}

export const noMemory: DropMemory = { path: '', files: {}, digests: [] }

/** Says whether a setting is such a memory. */
export function isDropMemory(value: unknown): value is DropMemory {
  if (typeof value !== 'object' || value === null) return false
  const { path, files, digests } = value as Record<string, unknown>
  return (
    typeof path === 'string' &&
    Array.isArray(digests) &&
    digests.every((one) => typeof one === 'string') &&
    typeof files === 'object' &&
    files !== null &&
    Object.values(files).every(isSeenFile)
  )
}

function isSeenFile(value: unknown): value is SeenFile {
  if (typeof value !== 'object' || value === null) return false
  const { size, modifiedMs, source } = value as Record<string, unknown>
  return (
    typeof size === 'number' &&
    typeof modifiedMs === 'number' &&
    (source === null || typeof source === 'string')
  )
}

/** The memory for a folder: names of another one mean nothing there, bytes do. */
export function memoryFor(memory: DropMemory, path: string): DropMemory {
  return memory.path === path ? memory : { ...memory, path, files: {} }
}

/** The files that were not seen in this state. */
export function filesToTake<F extends DropFile>(memory: DropMemory, files: readonly F[]): readonly F[] {
  return files.filter(({ name, size, modifiedMs }) => {
    const seen = Object.hasOwn(memory.files, name) ? memory.files[name] : undefined
    return !seen || seen.size !== size || seen.modifiedMs !== modifiedMs
  })
}

/** What an earlier state of a file became; null where there was none. */
export function earlierOf(memory: DropMemory, name: string): SourceId | null {
  return Object.hasOwn(memory.files, name) ? memory.files[name]!.source : null
}

/**
 * The memory after a file was looked at.
 * @param sha256 of its bytes, where they were read and taken
 */
export function withSeen(
  memory: DropMemory,
  { name, size, modifiedMs }: DropFile,
  source: SourceId | null,
  sha256: string | null,
): DropMemory {
  const isNew = sha256 !== null && !memory.digests.includes(sha256)
  return {
    ...memory,
    files: { ...memory.files, [name]: { size, modifiedMs, source } },
    digests: isNew ? [...memory.digests, sha256] : memory.digests,
  }
}

/** The memory without names that are not in the folder any more; their bytes stay known. */
export function withoutGone(memory: DropMemory, files: readonly DropFile[]): DropMemory {
  const there = new Set(files.map(({ name }) => name))
  const left = Object.entries(memory.files).filter(([name]) => there.has(name))
  return { ...memory, files: Object.fromEntries(left) }
}
