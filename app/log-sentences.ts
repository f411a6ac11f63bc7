/** What the person reads about a followed log that is not as it was. */
import type { LogPiece } from '../shared/host.ts'

export type Change = Extract<LogPiece, { kind: 'changed' }>['how']

/** @param reason what the system answered, where something failed */
export function changeSentence(how: Change, name: string, reason: string): string {
  switch (how) {
    case 'truncated':
      return `“${name}” was emptied or written anew, so it is read from its start. What was read before is kept.`
    case 'replaced':
      return `Another file now has the name “${name}”, as when logs are rotated. The one before was read to its end; from here on the new one is read.`
    case 'deleted':
      return `“${name}” was deleted or moved away. What was read is kept, and it goes on by itself when a file of that name is there again.`
    case 'unreadable':
      return `“${name}” cannot be read at the moment: ${reason}. What was read is kept, and it goes on by itself when it can be read again.`
    case 'back':
      return `“${name}” can be read again, and nothing that was written to it meanwhile is missing.`
    case 'writer gone':
      return `The program that wrote to “${name}” has ended. What was read is kept, and it goes on by itself when a program writes to it again.`
  }
}

/** The sentence about what is neither a file nor a pipe. */
export function notFollowable(name: string, isDevice: boolean): string {
  return isDevice
    ? `“${name}” is a device, and only files and named pipes are followed: reading a device takes its bytes away from the program that uses it. Nothing was opened. Let that program write a log, and follow the log.`
    : `“${name}” is neither a file nor a named pipe, so it cannot be followed. Nothing was opened. Choose the log itself.`
}
