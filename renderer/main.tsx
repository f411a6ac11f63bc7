/** Starts one window: the host, the labs, the workspace, the screen. */
import { createRoot, type Root } from 'react-dom/client'
import type { LabId } from '../shared/lab/ids.ts'
import { App } from './App.tsx'
import { OpenLab } from './db/lab.ts'
import { LabRegistry } from './db/labs.ts'
import { systemSurroundings } from './db/surroundings.ts'
import { beginFinding } from './find/asking.ts'
import { createHost } from './host/host.ts'
import { beginLab } from './labs/labs.ts'
import { passRewriting } from './rewriting/index.ts'
import { followPerson, who } from './store/person.ts'
import { recoverDrafts } from './store/recovery.ts'
import { WorkspaceContext } from './store/useWorkspace.ts'
import { claimWindow, livingWindows } from './store/windowIdentity.ts'
import { Workspace } from './store/workspace.ts'
import { withoutUnheard } from './unheard.ts'

const storage = { indexedDB, IDBKeyRange }
const around = { ...systemSurroundings(), who }

async function start(): Promise<void> {
  const root = createRoot(withoutUnheard(requireRoot()))
  const host = createHost(globalThis.window)
  const news = await passRewriting(root, host, storage, () => location.reload())
  const registry = new LabRegistry(storage)
  await followPerson(registry)
  const window = await claimWindow(around.ids, sessionStorage, navigator.locks)
  const openLab = async (id: LabId): Promise<OpenLab> => {
    const lab = await OpenLab.open(id, storage, around)
    await recoverDrafts(lab, window, await livingWindows(navigator.locks))
    return lab
  }
  const workspace = new Workspace({ registry, openLab, host, window })
  show(root, workspace)
  writeDownWhenLeaving(workspace)
  beginFinding(workspace, (act) => requestIdleCallback(act))
  void navigator.storage.persist()
  try {
    await openFirstLab(workspace)
    if (news) workspace.say(news.isDone ? 'done' : 'problem', news.sentence)
  } catch (error) {
    console.error(error)
    workspace.set({ phase: { kind: 'failed', sentence: sentenceFor(error) } })
  }
}

async function openFirstLab(workspace: Workspace): Promise<void> {
  const { registry } = workspace.parts
  const labs = await registry.labs()
  const last = await registry.findSetting('last lab')
  const lab =
    labs.find(({ id }) => id === last) ?? labs.at(-1) ?? (await beginLab(registry, around, 'My lab'))
  await workspace.openLab(lab.id)
}

function requireRoot(): HTMLElement {
  const root = document.getElementById('root')
  if (root === null) throw new Error('the page has no place for the screen')
  return root
}

function show(root: Root, workspace: Workspace): void {
  root.render(
    <WorkspaceContext value={workspace}>
      <App />
    </WorkspaceContext>,
  )
}

function writeDownWhenLeaving(workspace: Workspace): void {
  const writeDown = async (): Promise<void> => {
    if (workspace.state.lab) await workspace.flushTexts()
  }
  workspace.host.onCloseRequested(writeDown)
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void writeDown()
  })
}

function sentenceFor(error: unknown): string {
  const name = error instanceof Error ? error.name : ''
  if (name === 'VersionError')
    return 'This lab was last opened by a newer version of the program. Nothing was changed; open it with that version.'
  return `The lab could not be opened (${String(error)}). Nothing was changed. Close other windows of the program and start it again.`
}

void start()
