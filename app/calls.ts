/** The one place where calls of the page come in. It checks who is calling and with what before anything is done. */
import { BrowserWindow, ipcMain, type IpcMainInvokeEvent } from 'electron'
import {
  channelOf,
  checkArgument,
  hostCallNames,
  type HostAnswer,
  type HostArgument,
  type HostCallName,
  type HostResult,
} from '../shared/host.ts'
import { pageAddress } from './page.ts'

/** The shell's side of the contract: as the page's, but told which window asked. */
export type ShellFunctions = {
  readonly [N in HostCallName]: (
    window: BrowserWindow,
    argument: HostArgument<N>,
  ) => Promise<HostResult<HostAnswer<N>>> | HostResult<HostAnswer<N>>
}

/** Starts answering calls. @throws (to the caller) when a stranger calls or an argument is not as agreed */
export function answerCalls(functions: ShellFunctions): void {
  for (const name of hostCallNames) {
    ipcMain.handle(channelOf(name), (event, argument: unknown) =>
      answerCall(functions, name, event, argument),
    )
  }
}

function answerCall<N extends HostCallName>(
  functions: ShellFunctions,
  name: N,
  event: IpcMainInvokeEvent,
  argument: unknown,
): Promise<HostResult<HostAnswer<N>>> | HostResult<HostAnswer<N>> {
  const window = requireOwnWindow(event)
  return functions[name](window, checkArgument(name, argument))
}

/** The window whose own page, in its top frame, is calling. @throws when it is anyone else */
function requireOwnWindow(event: IpcMainInvokeEvent): BrowserWindow {
  const frame = event.senderFrame
  const window = BrowserWindow.fromWebContents(event.sender)
  if (
    window === null ||
    frame === null ||
    frame !== event.sender.mainFrame ||
    !frame.url.startsWith(pageAddress)
  ) {
    throw new Error('a call came from something that is not a page of this program')
  }
  return window
}
