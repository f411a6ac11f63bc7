/** The way out and back: the open lab to one file, and a file into a new lab. */
import { toFileName } from '../../shared/host.ts'
import type { Lab } from '../../shared/lab/model.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { letFileOut } from '../leaving/index.ts'
import type { Workspace } from '../store/workspace.ts'
import { askLabFileWorker } from '../workers/labFile.ts'
import { beginLab, renameLab } from './labs.ts'

const LARGEST = 512 * 1024 * 1024

/** Saves the open lab to a file that the person names. */
async function takeOut(workspace: Workspace): Promise<void> {
  await workspace.flushTexts()
  const lab = workspace.state.labs.find(({ id }) => id === workspace.requireLab().id)
  if (!lab) return
  const packed = await askLabFileWorker({ kind: 'pack', lab })
  if (!packed.ok) return workspace.say('problem', packed.sentence)
  if (packed.kind !== 'packed') return
  const day = new Date().toISOString().slice(0, 10)
  const saved = await letFileOut(
    workspace,
    { found: packed.found, what: 'The lab file' },
    {
      suggestedName: `${toFileName(lab.name)} ${day}.stillroom.zip`,
      mediaType: 'application/zip',
      bytes: packed.bytes,
    },
  )
  if (!saved.ok) workspace.say('problem', saved.sentence)
  else if (saved.value.kind === 'saved')
    workspace.say('done', `The whole lab was saved as “${saved.value.name}”.`)
}

/** Brings a lab file into a new lab and opens that. The labs that are there stay as they are. */
async function bringIn(workspace: Workspace): Promise<void> {
  const opened = await workspace.host.openFiles({ accept: ['.zip'], multiple: false, limitBytes: LARGEST })
  if (!opened.ok) return workspace.say('problem', opened.sentence)
  const file = opened.value.kind === 'opened' ? opened.value.files[0] : undefined
  if (!file) return
  if (file.kind === 'refused') return workspace.say('problem', file.sentence)
  await bringInBytes(workspace, file.bytes)
}

async function bringInBytes(workspace: Workspace, bytes: Uint8Array): Promise<void> {
  const { registry } = workspace.parts
  const into = await beginLab(registry, workspace.requireLab().surroundings, 'Lab being brought in')
  const answer = await askLabFileWorker({ kind: 'unpack', bytes, into }).catch((error: unknown) => ({
    ok: false as const,
    sentence: `The lab file could not be read (${String(error)}). Nothing was brought in.`,
  }))
  if (!answer.ok || answer.kind !== 'unpacked') {
    await registry.forget(into.id)
    return workspace.say('problem', answer.ok ? 'Nothing was brought in.' : answer.sentence)
  }
  await renameLab(registry, into, await freeName(registry.labs(), answer.name, into))
  await workspace.openLab(into.id)
  workspace.say(
    'done',
    `Brought in as a lab of its own. ${answer.wasRight ? 'Every checksum is right.' : 'What follows from its records was made anew.'}`,
  )
}

async function freeName(labs: Promise<Lab[]>, name: string, own: Lab): Promise<string> {
  const taken = new Set((await labs).filter(({ id }) => id !== own.id).map((lab) => lab.name))
  for (let number = 1; ; number++) {
    const candidate = number === 1 ? name : `${name} (${number})`
    if (!taken.has(candidate)) return candidate
  }
}

export function useLabFile() {
  const workspace = useWorkspace()
  return { takeOut: () => takeOut(workspace), bringIn: () => bringIn(workspace) }
}
