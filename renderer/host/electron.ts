/** The screen's host in Electron: every call goes through the bridge of the preload script, every answer is checked. */
import {
  checkResult,
  hostCallNames,
  type Host,
  type HostAnswer,
  type HostBridge,
  type HostCallName,
  type HostFunctions,
  type HostResult,
} from '../../shared/host.ts'

/** The host over a bridge. One for each page: it answers the shell when a window is about to close. */
export function createElectronHost(bridge: HostBridge): Host {
  const listeners = new Set<() => Promise<void>>()
  bridge.onCloseRequested(() => {
    // The window closes whether or not a save failed: the shell waits for a bounded time only, and says so nowhere.
    void Promise.allSettled([...listeners].map((listener) => listener())).then(() => bridge.readyToClose())
  })
  const arrived = new Listeners<[]>()
  const changed = new Listeners<[lab: string]>()
  bridge.onArrived(() => arrived.tell())
  bridge.onDropFolderChanged((lab) => changed.tell(String(lab)))
  const functions = Object.fromEntries(hostCallNames.map((name) => [name, checkedCall(bridge, name)]))
  return {
    ...(functions as unknown as HostFunctions),
    onCloseRequested(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    onArrived: (listener) => arrived.add(listener),
    onDropFolderChanged: (listener) => changed.add(listener),
  }
}

class Listeners<Told extends readonly unknown[]> {
  private readonly held = new Set<(...told: Told) => void>()

  add(listener: (...told: Told) => void): () => void {
    this.held.add(listener)
    return () => this.held.delete(listener)
  }

  tell(...told: Told): void {
    for (const listener of this.held) listener(...told)
  }
}

function checkedCall<N extends HostCallName>(bridge: HostBridge, name: N) {
  return async (argument?: unknown): Promise<HostResult<HostAnswer<N>>> =>
    checkResult(name, await bridge[name](argument))
}
