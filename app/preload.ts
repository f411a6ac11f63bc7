/**
 * Runs in the page's sandboxed process, apart from the page's own world, and hands it the contract's calls and nothing
 * else. It passes payloads through unread: the shell checks arguments, the screen checks answers.
 */
import { contextBridge, ipcRenderer } from 'electron'
import {
  arrivedChannel,
  channelOf,
  closeRequestedChannel,
  dropFolderChangedChannel,
  hostCallNames,
  type HostBridge,
  type HostCallName,
} from '../shared/host.ts'

const calls = Object.fromEntries(
  hostCallNames.map((name) => [
    name,
    (argument?: unknown): Promise<unknown> => ipcRenderer.invoke(channelOf(name), argument),
  ]),
) as Pick<HostBridge, HostCallName>

const bridge: HostBridge = {
  ...calls,
  onCloseRequested(listener) {
    ipcRenderer.on(closeRequestedChannel, () => listener())
  },
  onArrived(listener) {
    ipcRenderer.on(arrivedChannel, () => listener())
  },
  onDropFolderChanged(listener) {
    ipcRenderer.on(dropFolderChangedChannel, (_event, lab: unknown) => listener(lab))
  },
}

contextBridge.exposeInMainWorld('stillroomHost', bridge)
