/** Paths as they are typed, and from where they are meant. */

/**
 * A path made whole: seen from a directory, without `.`, `..` and doubled `/`. Where neither begins at the root or a
 * home, it is not known which file is meant: undefined. A `..` behind a symbolic link is taken by its letters.
 */
export function maybeWholePath(path: string, directory: string | null): string | undefined {
  if (path === '' || path.includes('\n')) return undefined
  const isWhole = /^(?:\/|~[^/]*(?:\/|$))/.test(path)
  if (!isWhole && (directory === null || !/^[/~]/.test(directory))) return undefined
  const parts: string[] = []
  for (const part of (isWhole ? path : `${directory}/${path}`).split('/')) {
    if (part === '..') {
      // What lies above a home is not known.
      if (parts.length === 1 && parts[0]!.startsWith('~')) return undefined
      if (parts.length > 1) parts.pop()
    } else if (part !== '.' && (part !== '' || parts.length === 0)) parts.push(part)
  }
  return parts.length === 1 && parts[0] === '' ? '/' : parts.join('/')
}

/** Where the system keeps no files but its own state. */
export function isDevicePath(path: string): boolean {
  return /^\/(?:dev|proc|sys)(?:\/|$)/.test(path)
}
