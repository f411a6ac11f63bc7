/** Rewriting the store's side towards windows: one window alone, and the new start of the program. */
import { app, BrowserWindow, dialog } from 'electron'
import { done, failed, type HostResult } from '../shared/host.ts'
import type { ShellFunctions } from './calls.ts'
import { Rewriting } from './rewriting.ts'
import { toReason } from './sentences.ts'
import { storeDisk } from './store-disk.ts'
import { stayAlone } from './windows.ts'

type RewritingCalls = Pick<
  ShellFunctions,
  | 'beginRewriting'
  | 'writeRewriting'
  | 'finishRewriting'
  | 'leaveRewriting'
  | 'findRewriting'
  | 'readRewriting'
  | 'endRewriting'
>

/**
 * Goes on with what an earlier run left. Call before the app is ready, when it is sure that no other run is under way.
 * @returns null where the store must not be opened; the person was told and the program ends
 */
export function resumeRewriting(): Rewriting | null {
  const rewriting = new Rewriting(app.getPath('userData'), storeDisk)
  try {
    rewriting.resume()
    stayAlone(() => rewriting.isUnderWay)
    return rewriting
  } catch (error) {
    dialog.showErrorBox(
      'The store is being rewritten',
      `Rewriting the store could not go on: ${toReason(error)}. Nothing is lost: all labs lie in the folder “rewriting” of ${app.getPath('userData')}. Make room on the disk, close other programs that use it, and start Stillroom again.`,
    )
    app.exit(1)
    return null
  }
}

/** @param startAnew ends the program and starts it again */
export function createRewritingCalls(
  rewriting: Rewriting,
  startAnew: () => void,
  flush: () => void,
): RewritingCalls {
  return {
    beginRewriting: (window) => begin(rewriting, window),
    writeRewriting: (_window, { name, offset, bytes }) =>
      attempt('not written', 'could not be written out', () => {
        rewriting.write(name, offset, bytes)
        return null
      }),
    finishRewriting: (_window, { files }) => {
      const wrong = attempt('not written', 'could not be written out', () => rewriting.finish(files))
      if (!wrong.ok) return wrong
      if (wrong.value !== null) return failed('not written', differs(wrong.value))
      startAnew()
      return done(null)
    },
    leaveRewriting: () =>
      attempt('not written', 'was not written out', () => {
        rewriting.leave()
        return null
      }),
    findRewriting: () => {
      const standing = rewriting.find()
      return done(standing.kind === 'waiting' ? { ...standing, files: [...standing.files] } : standing)
    },
    readRewriting: (_window, { name, offset, length }) =>
      attempt('not read', 'could not be read back', () => ({ bytes: rewriting.read(name, offset, length) })),
    endRewriting: () => {
      flush()
      return attempt('not written', 'could not be finished', () => ({ sentence: rewriting.end() }))
    },
  }
}

function begin(rewriting: Rewriting, window: BrowserWindow): HostResult<null> {
  if (BrowserWindow.getAllWindows().length > 1) return failed('not written', secondWindow)
  const begun = attempt('not written', 'could not be written out', () => {
    rewriting.begin()
    return null
  })
  window.once('closed', () => {
    // Whoever closes the window gives up; what was not finished would only lie there.
    if (rewriting.canLeave) rewriting.leave()
  })
  return begun
}

const secondWindow =
  'The store was not rewritten, since another window of the program is open. Nothing was changed. Close the other windows and try again.'

const differs = (name: string): string =>
  `The store was not rewritten: what was written out is not what is on the disk (${name}). The labs are as they were. See whether the disk is in order, and save the labs to files elsewhere.`

function attempt<T>(code: 'not written' | 'not read', what: string, act: () => T): HostResult<T> {
  try {
    return done(act())
  } catch (error) {
    return failed(
      code,
      `The store ${what}: ${toReason(error)}. Nothing is lost. Make room on the disk and try again.`,
    )
  }
}
