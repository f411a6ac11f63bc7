import { describe, expect, it, vi } from 'vitest'
import { createElectronHost } from '../../../../renderer/host/electron.ts'
import { done, failed, hostCallNames, type HostBridge } from '../../../../shared/host.ts'

/** A bridge that answers every call with one value, and whose window can be asked to close. */
function plantedBridge(answer: unknown): HostBridge & {
  requestClose(): void
  tellArrived(): void
  tellChanged(lab: string): void
  readyToClose: ReturnType<typeof vi.fn>
} {
  let listener = (): void => undefined
  let arrived = (): void => undefined
  let changed: (lab: unknown) => void = () => undefined
  const calls = Object.fromEntries(hostCallNames.map((name) => [name, vi.fn(() => Promise.resolve(answer))]))
  return {
    ...(calls as unknown as HostBridge & { readyToClose: ReturnType<typeof vi.fn> }),
    onCloseRequested: (given) => (listener = given),
    onArrived: (given) => (arrived = given),
    onDropFolderChanged: (given) => (changed = given),
    requestClose: () => listener(),
    tellArrived: () => arrived(),
    tellChanged: (lab) => changed(lab),
  }
}

describe('the host in Electron', () => {
  it('hands over what the shell answers when it is as agreed', async () => {
    const host = createElectronHost(plantedBridge(done({ kind: 'saved', name: 'a.md' })))
    const saved = await host.saveFile({
      suggestedName: 'a.md',
      mediaType: 'text/markdown',
      bytes: new Uint8Array(),
    })
    expect(saved).toEqual(done({ kind: 'saved', name: 'a.md' }))
    const failure = failed('not written', 'The disk is full.')
    const other = createElectronHost(plantedBridge(failure))
    expect(
      await other.saveFile({ suggestedName: 'a.md', mediaType: 'text/markdown', bytes: new Uint8Array() }),
    ).toEqual(failure)
  })

  it.each([undefined, 'saved', { ok: true, value: { kind: 'saved' } }, { ok: false }])(
    'throws for the answer %j',
    async (answer) => {
      const host = createElectronHost(plantedBridge(answer))
      const saving = host.saveFile({
        suggestedName: 'a.md',
        mediaType: 'text/markdown',
        bytes: new Uint8Array(),
      })
      await expect(saving).rejects.toThrow('is not as agreed')
    },
  )

  it('says that it is ready to close only after everyone has saved, also when one could not', async () => {
    const bridge = plantedBridge(done(null))
    const host = createElectronHost(bridge)
    let finish = (): void => undefined
    host.onCloseRequested(() => new Promise((resolve) => (finish = resolve)))
    host.onCloseRequested(() => Promise.reject(new Error('no space')))
    bridge.requestClose()
    await new Promise((resolve) => setTimeout(resolve, 20))
    expect(bridge.readyToClose).not.toHaveBeenCalled()
    finish()
    await vi.waitFor(() => expect(bridge.readyToClose).toHaveBeenCalledOnce())
  })

  it('does not ask those that have stopped listening', async () => {
    const bridge = plantedBridge(done(null))
    const host = createElectronHost(bridge)
    const listener = vi.fn(() => Promise.resolve())
    host.onCloseRequested(listener)()
    bridge.requestClose()
    await vi.waitFor(() => expect(bridge.readyToClose).toHaveBeenCalledOnce())
    expect(listener).not.toHaveBeenCalled()
  })

  it('tells everyone who listens what has arrived and which drop folder has changed', () => {
    const bridge = plantedBridge(done(null))
    const host = createElectronHost(bridge)
    const told: string[] = []
    host.onArrived(() => told.push('one'))
    const stop = host.onArrived(() => told.push('two'))
    host.onDropFolderChanged((lab) => told.push(lab))
    bridge.tellArrived()
    stop()
    bridge.tellArrived()
    bridge.tellChanged('a-lab')
    expect(told).toEqual(['one', 'two', 'one', 'a-lab'])
  })
})
