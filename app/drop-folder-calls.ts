/** The drop folders' side towards windows: the dialog, and telling of changes. */
import { join } from 'node:path'
import { app, BrowserWindow, dialog } from 'electron'
import {
  done,
  dropFolderChangedChannel,
  type HostAnswer,
  type HostArgument,
  type HostResult,
} from '../shared/host.ts'
import type { ShellFunctions } from './calls.ts'
import { DropFolders } from './drop-folders.ts'

type DropFolderCalls = Pick<
  ShellFunctions,
  'chooseDropFolder' | 'findDropFolder' | 'leaveDropFolder' | 'listDropFolder' | 'readDropFile'
>

/** The answers to the calls about drop folders. Make them once. */
export function createDropFolderCalls(): DropFolderCalls {
  const folders = new DropFolders(join(app.getPath('userData'), 'drop-folders.json'), tellWindows)
  return {
    chooseDropFolder: (window, argument) => chooseDropFolder(folders, window, argument),
    findDropFolder: (_window, argument) => folders.find(argument),
    leaveDropFolder: (_window, argument) => folders.leave(argument),
    listDropFolder: (_window, argument) => folders.list(argument),
    readDropFile: (_window, argument) => folders.read(argument),
  }
}

async function chooseDropFolder(
  folders: DropFolders,
  window: BrowserWindow,
  { lab }: HostArgument<'chooseDropFolder'>,
): Promise<HostResult<HostAnswer<'chooseDropFolder'>>> {
  const chosen = await dialog.showOpenDialog(window, { properties: ['openDirectory', 'createDirectory'] })
  const path = chosen.filePaths[0]
  return chosen.canceled || path === undefined ? done({ kind: 'cancelled' }) : folders.choose(lab, path)
}

function tellWindows(lab: string): void {
  for (const window of BrowserWindow.getAllWindows()) window.webContents.send(dropFolderChangedChannel, lab)
}
