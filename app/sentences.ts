/** What the system answered, as a sentence for the person. */

const known: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EACCES: 'this place may not be used by you',
  EPERM: 'this place may not be used by you',
  EROFS: 'this place can only be read',
  ENOENT: 'it is not there any more',
  EISDIR: 'it is a folder',
  ENOTDIR: 'it is not there any more',
  ELOOP: 'it is a symbolic link',
  ENXIO: 'it is no regular file any more',
  ETIMEDOUT: 'the place does not answer',
}

/** Why something failed, as the end of a sentence, in words where the system's code is a known one. */
export function toReason(error: unknown): string {
  const reason = error instanceof Error && 'code' in error ? String(error.code) : String(error)
  return known[reason] ?? `the system answered ${reason}`
}

/** A sentence about a file that could not be written or read. @param what what happened, without its full stop */
export function toSentence(what: string, error: unknown): string {
  return `${what}: ${toReason(error)}. Nothing in the lab was changed. Choose another place or file.`
}
