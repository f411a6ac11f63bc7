/** A lab with a secret in it, and all that its tables hold as text. */
import type { OpenLab } from '../../../renderer/db/lab.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { RevisionId } from '../../../shared/lab/ids.ts'
import type { ChangeSetJson, TextNode } from '../../../shared/lab/model.ts'
import { openTestLab } from './lab.ts'
import { beginStory, recordsOf } from './story.ts'

export const SECRET = 'Zw0lf-B\u00f6xk\u00e4mpfer'
export const MASKED = '█'.repeat(SECRET.length)

/** All that the tables hold, as text; bytes are read in every way in which they might show the secret. */
export async function everything(lab: OpenLab): Promise<string> {
  const readings = (bytes: Uint8Array): string[] => [
    ...['utf-8', 'utf-16le', 'utf-16be'].map((name) => new TextDecoder(name).decode(bytes)),
    ...['utf-16le', 'utf-16be'].map((name) => new TextDecoder(name).decode(bytes.subarray(1))),
  ]
  return JSON.stringify(await lab.dump(), (_, value: unknown) =>
    value instanceof Uint8Array ? readings(value) : value,
  )
}

export async function openStory() {
  const lab = await openTestLab()
  await beginStory(lab)
  const commit = async (change: Change): Promise<Change> => {
    const result = await lab.committer.commit(change)
    if (!result.ok) throw new Error(result.sentence)
    return change
  }
  const records = await recordsOf(lab)
  const project = records.projects[0]!
  const addEntry = async (text: string) => {
    const added = acts.addEntry(lab.surroundings, { project: project.id, kind: 'output', text })
    await commit(added.change)
    return { ...added, node: { kind: 'entry', id: added.entry.id } as const }
  }
  const write = async (node: TextNode, from: RevisionId, changeSet: ChangeSetJson) => {
    const written = acts.writeText(lab.surroundings, node, from, changeSet)
    await commit(written.change)
    return written
  }
  const strike = async (secret = SECRET, reason = 'a password') => {
    const node = { kind: 'entry', id: records.entries[0]!.id } as const
    const result = await lab.committer.strikeOut(node, secret, reason)
    if (!result.ok) throw new Error(result.sentence)
    return result.value.change
  }
  return { lab, around: lab.surroundings, records, project, commit, addEntry, write, strike }
}

export const addPage = (around: acts.Surroundings, text: string, raw = text) =>
  acts.addSource(around, {
    title: 'Page',
    address: null,
    kind: 'page',
    wayIn: 'pasted',
    projects: [],
    capture: { text, bytes: new TextEncoder().encode(raw), sha256: 'c'.repeat(64), mediaType: 'text/html' },
  })

export const textOf = async (lab: OpenLab, id: string): Promise<string | undefined> =>
  (await recordsOf(lab)).texts.find(({ node }) => node === id)?.text
