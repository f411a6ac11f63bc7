/** Files that a window may read by a token, since the person chose them there or handed them over to it. */
import { randomBytes } from 'node:crypto'
import { basename } from 'node:path'
import { stat } from 'node:fs/promises'
import { dialog, type BrowserWindow, type WebContents } from 'electron'
import {
  done,
  failed,
  notHeldFile,
  type ChosenFile,
  type HostAnswer,
  type HostArgument,
  type HostResult,
} from '../shared/host.ts'
import type { Whereabouts } from './arriving.ts'
import { readInside, readPart, readPartInside, readWithin } from './disk.ts'
import { walkFolder, type FoundFile } from './folders.ts'
import { toSentence } from './sentences.ts'

interface Held {
  readonly name: string
  readonly place: Whereabouts
}

/** A token is good for the page that was given it: when that goes, so does the token. */
const heldBy = new WeakMap<WebContents, Map<string, Held>>()

/** Lets a window read a file from now on. @param file named as the window is to know it */
export function holdFile(window: BrowserWindow, file: FoundFile, place: Whereabouts): ChosenFile {
  const token = randomBytes(16).toString('hex')
  tokensOf(window.webContents).set(token, { name: file.name, place })
  return { token, ...file }
}

function tokensOf(contents: WebContents): Map<string, Held> {
  const tokens = heldBy.get(contents) ?? new Map<string, Held>()
  if (!heldBy.has(contents)) {
    heldBy.set(contents, tokens)
    contents.on('did-navigate', () => tokens.clear())
  }
  return tokens
}

/** Lets the person choose files, without reading them. */
export async function chooseFiles(
  window: BrowserWindow,
  { accept, multiple }: HostArgument<'chooseFiles'>,
): Promise<HostResult<HostAnswer<'chooseFiles'>>> {
  const chosen = await dialog.showOpenDialog(window, {
    properties: multiple ? ['openFile', 'multiSelections'] : ['openFile'],
    filters:
      accept.length === 0 ? [] : [{ name: 'Files', extensions: accept.map((ending) => ending.slice(1)) }],
  })
  if (chosen.canceled || chosen.filePaths.length === 0) return done({ kind: 'cancelled' })
  try {
    const files: ChosenFile[] = []
    for (const path of chosen.filePaths) {
      const { size, mtimeMs } = await stat(path)
      const file = { name: basename(path), size, modifiedMs: Math.floor(mtimeMs) }
      files.push(holdFile(window, file, { kind: 'alone', path }))
    }
    return done({ kind: 'chosen', files })
  } catch (error) {
    return failed('not read', toSentence('A file could not be read', error))
  }
}

/** Lets the person choose a folder, and finds the files in it. */
export async function chooseFolder(window: BrowserWindow): Promise<HostResult<HostAnswer<'chooseFolder'>>> {
  const chosen = await dialog.showOpenDialog(window, { properties: ['openDirectory'] })
  const folder = chosen.filePaths[0]
  if (chosen.canceled || folder === undefined) return done({ kind: 'cancelled' })
  try {
    const found = await walkFolder(folder)
    const files = found.files.map((file) =>
      holdFile(window, file, { kind: 'inside', folder, name: file.name }),
    )
    return done({ kind: 'chosen', name: basename(folder), files, notes: [...found.notes] })
  } catch (error) {
    return failed('not read', toSentence(`The folder “${basename(folder)}” could not be read`, error))
  }
}

/** Reads a file that this window was given a token of. */
export async function readChosenFile(
  window: BrowserWindow,
  { token, limitBytes }: HostArgument<'readChosenFile'>,
): Promise<HostResult<HostAnswer<'readChosenFile'>>> {
  const held = tokensOf(window.webContents).get(token)
  if (held === undefined) return failed('not read', notHeldFile)
  const { name, place } = held
  try {
    if (place.kind === 'alone') return done(await readWithin(place.path, limitBytes, name))
    return done({ ...(await readInside(place.folder, place.name, limitBytes)), name })
  } catch (error) {
    return failed('not read', toSentence(`“${name}” could not be read`, error))
  }
}

/** Reads a part of such a file. */
export async function readChosenPart(
  window: BrowserWindow,
  { token, offset, length }: HostArgument<'readChosenPart'>,
): Promise<HostResult<HostAnswer<'readChosenPart'>>> {
  const held = tokensOf(window.webContents).get(token)
  if (held === undefined) return failed('not read', notHeldFile)
  const { name, place } = held
  try {
    if (place.kind === 'alone') return done({ bytes: await readPart(place.path, offset, length) })
    return done({ bytes: await readPartInside(place.folder, place.name, offset, length) })
  } catch (error) {
    return failed('not read', toSentence(`“${name}” could not be read`, error))
  }
}
