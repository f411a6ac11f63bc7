/**
 * Names for files in an archive that follow their paths, and that can be unpacked anywhere: none leads out of the folder
 * that it is unpacked into, none is two files at once, also where capitals make no difference.
 */

/** No part of a path is longer than this in UTF-8, and no path has more parts. */
const LONGEST_PART = 180
const MOST_PARTS = 40

// Names that Windows gives to devices, whatever ends them.
const device = /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(?:\.|$)/iu

/**
 * The path without its root, `.` and `..` followed as the system would, and no further than the root. Backslashes part as
 * slashes do: unpackers on Windows take them so.
 * @returns an empty text where no name is left
 */
export function archiveName(path: string): string {
  const parts: string[] = []
  for (const part of path.split(/[/\\]/u)) {
    if (part === '..') parts.pop()
    else if (part !== '' && part !== '.') parts.push(part)
  }
  return parts.slice(-MOST_PARTS).map(safePart).join('/')
}

function safePart(part: string, at: number): string {
  // A folder of this name would be taken for the person's own home by whoever clears it away.
  const named = at === 0 ? part.replace(/^~/u, 'home') : part
  const plain = named
    // eslint-disable-next-line no-control-regex -- control characters are what is looked for
    .replace(/[<>:"|?*\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069\p{Cs}]/gu, '-')
    .replace(/[. ]+$/u, (end) => '_'.repeat(end.length))
    .replace(/^-/u, '_')
  return shortened(device.test(plain) ? `_${plain}` : plain)
}

/** The end is kept, since it tells what the file is. */
function shortened(part: string): string {
  const points = Array.from(part)
  const size = (text: string): number => new TextEncoder().encode(text).length
  while (size(points.join('')) > LONGEST_PART) points.shift()
  return points.join('')
}

/** Gives each name once. */
export class ArchiveNames {
  private readonly files = new Set<string>()
  private readonly folders = new Set<string>()

  /** @param reserved names that the archive has beside the files */
  constructor(reserved: readonly string[]) {
    for (const name of reserved) this.hold(name)
  }

  /** The name of a file. Where another file has it, it gets a number; likewise a folder of it that is a file already. */
  take(path: string, ending = ''): string {
    const parts = (archiveName(path) || 'file').split('/')
    let folder = ''
    for (const part of parts.slice(0, -1))
      folder = `${this.numbered(`${folder}${part}`, '', (key) => !this.files.has(key))}/`
    const last = `${folder}${parts.at(-1)!}`
    const name = this.numbered(last, ending, (key) => !this.files.has(key) && !this.folders.has(key))
    this.hold(name)
    return name
  }

  private numbered(base: string, ending: string, isFree: (key: string) => boolean): string {
    for (let n = 1; ; n++) {
      const name = `${base}${n === 1 ? '' : ` (${n})`}${ending}`
      if (isFree(keyOf(name))) return name
    }
  }

  private hold(name: string): void {
    const key = keyOf(name)
    this.files.add(key)
    for (const folder of foldersOf(key)) this.folders.add(folder)
  }
}

/** Names that are one to some file system. */
const keyOf = (name: string): string => name.normalize('NFKC').toLowerCase().normalize('NFKC')

function foldersOf(name: string): string[] {
  const parts = name.split('/')
  return parts.slice(1).map((_, at) => parts.slice(0, at + 1).join('/'))
}
