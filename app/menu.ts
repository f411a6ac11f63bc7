/**
 * The menus. Undo and redo are not among them: the page keeps one history for texts and records together, so their keys
 * must reach it instead of Chromium's own text history.
 */
import { app, Menu, type MenuItemConstructorOptions, type WebContents } from 'electron'
import { openWindow } from './windows.ts'

/** Sets the program's menu. */
export function setMenu(): void {
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(process.platform, !app.isPackaged)))
}

/** The menu as a value. Development adds reloading and the developer tools. */
export function menuTemplate(
  platform: NodeJS.Platform,
  isDevelopment: boolean,
): MenuItemConstructorOptions[] {
  const isMac = platform === 'darwin'
  const newWindow: MenuItemConstructorOptions = {
    label: 'New window',
    accelerator: 'CmdOrCtrl+Shift+N',
    click: () => void openWindow(),
  }
  const tools: MenuItemConstructorOptions[] = [
    { type: 'separator' },
    { role: 'reload' },
    { role: 'toggleDevTools' },
  ]
  return [
    ...(isMac ? [{ role: 'appMenu' } as const] : []),
    {
      label: 'File',
      submenu: [
        newWindow,
        { type: 'separator' },
        { role: 'close' },
        ...(isMac ? [] : [{ role: 'quit' } as const]),
      ],
    },
    { label: 'Edit', submenu: editItems() },
    {
      label: 'View',
      submenu: [
        { role: 'zoomIn' },
        { role: 'zoomOut' },
        { role: 'resetZoom' },
        { type: 'separator' },
        { role: 'togglefullscreen' },
        ...(isDevelopment ? tools : []),
      ],
    },
    { label: 'Window', submenu: [{ role: 'minimize' }, ...(isMac ? [{ role: 'zoom' } as const] : [])] },
  ]
}

function editItems(): MenuItemConstructorOptions[] {
  return [
    { role: 'cut' },
    { role: 'copy' },
    { role: 'paste' },
    { role: 'pasteAndMatchStyle' },
    { role: 'delete' },
    { type: 'separator' },
    { role: 'selectAll' },
  ]
}

/** Offers cut, copy and paste at a right click in a text, where the page has no menu of its own. */
export function offerTextMenu(contents: WebContents): void {
  contents.on('context-menu', (_event, place) => {
    if (place.isEditable) Menu.buildFromTemplate(editItems()).popup()
    else if (place.selectionText.trim() !== '') Menu.buildFromTemplate([{ role: 'copy' }]).popup()
  })
}
