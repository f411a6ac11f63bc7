/** A procedure whose parts came from a source and from entries, in a lab in memory. */
import { carryTo } from '../../../../../renderer/store/carrying.ts'
import { toView, type ProjectView } from '../../../../../renderer/store/view.ts'
import type { OpenLab } from '../../../../../renderer/db/lab.ts'
import { pickFragment, pickSource, type Fragment } from '../../../../../shared/distil/fragment.ts'
import type { LandingPlace } from '../../../../../shared/distil/landing.ts'
import { addEntry, addProcedure, addProject, addSource } from '../../../../../shared/lab/acts.ts'
import type { Change } from '../../../../../shared/lab/change.ts'
import type { Capture, Entry, EntryKind, Source } from '../../../../../shared/lab/model.ts'
import type { ProcedureId, ProjectId, StepId } from '../../../../../shared/lab/ids.ts'
import { openTestLab } from '../../../support/lab.ts'

export interface Scene {
  readonly lab: OpenLab
  readonly project: ProjectId
  readonly procedure: ProcedureId
  readonly source: Source
  readonly capture: Capture
  commit(change: Change): Promise<void>
  view(): Promise<ProjectView>
  entry(kind: EntryKind, text: string): Promise<Entry>
  /** Carries, and says which node the words are in now. */
  carry(fragment: Fragment, place: LandingPlace): Promise<string>
  fromSource(words: string): Fragment
  wholeSource(): Fragment
  fromEntry(entry: Entry, text: string): Fragment
  steps(): Promise<StepId[]>
}

const page = 'Name the disk by its PARTUUID.\n\n```sh\nrsync -aHAX / /mnt/new/\n```\n'

export async function openScene(): Promise<Scene> {
  const lab = await openTestLab()
  const around = lab.surroundings
  const commit = async (change: Change): Promise<void> => {
    const result = await lab.committer.commit(change)
    if (!result.ok) throw new Error(result.sentence)
  }
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  await commit(change)
  const bytes = new TextEncoder().encode(page)
  const added = addSource(around, {
    title: 'Moving a root file system',
    address: 'https://notes.example.org/move',
    kind: 'markdown',
    wayIn: 'typed',
    projects: [project.id],
    capture: { text: page, bytes, sha256: 'a'.repeat(64), mediaType: 'text/markdown' },
  })
  await commit(added.change)
  const begun = addProcedure(around, project.id, 'Move the logger', 'When the disk wears out.')
  await commit(begun.change)
  const capture = added.capture!
  const { source } = added
  const from = { lab: lab.id, title: source.title, address: source.address } as const
  const view = async (): Promise<ProjectView> => toView(project.id, await lab.queries.project(project.id))
  return {
    lab,
    project: project.id,
    procedure: begun.procedure.id,
    source,
    capture,
    commit,
    view,
    async entry(kind, text) {
      const made = addEntry(around, { project: project.id, kind, text })
      await commit(made.change)
      return made.entry
    },
    async carry(fragment, place) {
      const result = await carryTo(lab, await view(), fragment, place, 'drag')
      if (!result.ok) throw new Error(result.sentence)
      return result.value.node.id
    },
    fromSource(words) {
      const start = page.indexOf(words)
      const node = { kind: 'capture', id: capture.id } as const
      const text = {
        ...from,
        node,
        revision: capture.revision,
        origin: { kind: 'source' },
        text: page,
      } as const
      return pickFragment(text, [{ start, end: start + words.length }])!
    },
    wholeSource: () => pickSource({ ...from, node: { kind: 'source', id: source.id } }),
    fromEntry(entry, text) {
      const origin = { kind: 'entry', entryKind: entry.kind } as const
      const node = { kind: 'entry', id: entry.id } as const
      const picked = { ...from, title: '', address: null, node, revision: null, origin, text }
      return pickFragment(picked, [{ start: 0, end: text.length }])!
    },
    async steps() {
      const all = [...(await view()).steps.values()]
      return all.sort((a, b) => (a.position < b.position ? -1 : 1)).map(({ id }) => id)
    },
  }
}
