/** Files that the person chooses: saving and opening through the system's own dialogs. */
import { basename, extname, join } from 'node:path'
import { app, dialog, type BrowserWindow } from 'electron'
import {
  done,
  failed,
  type HostAnswer,
  type HostArgument,
  type HostResult,
  type OpenedFile,
} from '../shared/host.ts'
import { readWithin, writeWhole } from './disk.ts'
import { toSentence } from './sentences.ts'

/** Asks where to, then writes the bytes there whole or not at all. */
export async function saveFile(
  window: BrowserWindow,
  argument: HostArgument<'saveFile'>,
): Promise<HostResult<HostAnswer<'saveFile'>>> {
  const ending = extname(argument.suggestedName).slice(1)
  const chosen = await dialog.showSaveDialog(window, {
    defaultPath: join(app.getPath('documents'), argument.suggestedName),
    filters: ending === '' ? [] : [{ name: ending.toUpperCase(), extensions: [ending] }],
  })
  if (chosen.canceled || chosen.filePath === undefined || chosen.filePath === '')
    return done({ kind: 'cancelled' })
  try {
    await writeWhole(chosen.filePath, argument.bytes)
    return done({ kind: 'saved', name: basename(chosen.filePath) })
  } catch (error) {
    return failed('not written', toSentence(`“${basename(chosen.filePath)}” could not be written`, error))
  }
}

/** Lets the person choose files and reads those that are within the limit. */
export async function openFiles(
  window: BrowserWindow,
  argument: HostArgument<'openFiles'>,
): Promise<HostResult<HostAnswer<'openFiles'>>> {
  const chosen = await dialog.showOpenDialog(window, {
    properties: argument.multiple ? ['openFile', 'multiSelections'] : ['openFile'],
    filters:
      argument.accept.length === 0
        ? []
        : [{ name: 'Files', extensions: argument.accept.map((ending) => ending.slice(1)) }],
  })
  if (chosen.canceled) return done({ kind: 'cancelled' })
  try {
    const files: OpenedFile[] = []
    for (const path of chosen.filePaths) files.push(await readWithin(path, argument.limitBytes))
    return done({ kind: 'opened', files })
  } catch (error) {
    return failed('not read', toSentence('A file could not be read', error))
  }
}
