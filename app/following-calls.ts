/** The followed logs' side towards windows: the dialog, and which window follows what. */
import { stat } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { app, dialog, type BrowserWindow, type WebContents } from 'electron'
import { done, failed, type HostAnswer, type HostArgument, type HostResult } from '../shared/host.ts'
import type { ShellFunctions } from './calls.ts'
import { Followings, isDevice } from './following.ts'
import { KeptLogs, toKnown } from './kept-logs.ts'
import { notFollowable } from './log-sentences.ts'
import { toSentence } from './sentences.ts'

type FollowingCalls = Pick<
  ShellFunctions,
  'chooseLog' | 'listLogs' | 'forgetLog' | 'followLog' | 'readFollowed' | 'stopFollowing'
>

/** The answers to the calls about followed logs. Make them once. */
export function createFollowingCalls(): FollowingCalls {
  const kept = new KeptLogs(join(app.getPath('userData'), 'logs.json'))
  const followings = new Followings()
  const known = new WeakSet<WebContents>()
  const ownerOf = ({ webContents }: BrowserWindow): WebContents => {
    if (known.has(webContents)) return webContents
    known.add(webContents)
    for (const gone of ['did-navigate', 'render-process-gone', 'destroyed'] as const)
      webContents.on(gone as 'destroyed', () => followings.stopOwner(webContents))
    return webContents
  }
  return {
    chooseLog: (window, argument) => chooseLog(kept, window, argument),
    listLogs: (_window, { lab }) => done(kept.list(lab).map(toKnown)),
    forgetLog: (_window, { lab, log }) => {
      if (kept.maybe(lab, log) !== undefined) followings.stopLog(log)
      return kept.forget(lab, log)
    },
    followLog: (window, { lab, log, after }) => {
      const named = kept.maybe(lab, log)
      if (named === undefined) return failed('not read', notNamed)
      return followings.follow(ownerOf(window), named, after)
    },
    readFollowed: (window, { following }) => followings.read(ownerOf(window), following),
    stopFollowing: (window, { following }) => {
      followings.stop(ownerOf(window), following)
      return done(null)
    },
  }
}

const notNamed =
  'This lab has no such log, so nothing was opened and nothing was changed. Choose the log with “Follow a log”.'

async function chooseLog(
  kept: KeptLogs,
  window: BrowserWindow,
  { lab, timingOf }: HostArgument<'chooseLog'>,
): Promise<HostResult<HostAnswer<'chooseLog'>>> {
  const log = timingOf === null ? null : kept.maybe(lab, timingOf)
  if (log === undefined) return failed('not read', notNamed)
  const title = log === null ? 'Follow a log' : `Timing file of ${basename(log.path)}`
  const chosen = await dialog.showOpenDialog(window, { title, properties: ['openFile', 'showHiddenFiles'] })
  const path = chosen.filePaths[0]
  if (chosen.canceled || path === undefined) return done({ kind: 'cancelled' })
  try {
    const stats = await stat(path)
    if (!stats.isFile() && (log !== null || !stats.isFIFO()))
      return failed('not read', notFollowable(basename(path), isDevice(stats)))
  } catch (error) {
    return failed('not read', toSentence(`“${basename(path)}” could not be read`, error))
  }
  const result = log === null ? await kept.add(lab, path) : await kept.setTiming(lab, log, path)
  return result.ok ? done({ kind: 'chosen', log: toKnown(result.value) }) : result
}
