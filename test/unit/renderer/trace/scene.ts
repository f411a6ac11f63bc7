/** A source, an entry that quotes it, and a step that quotes the entry; and a second procedure beside. */
import { carryTo } from '../../../../renderer/store/carrying.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import type { LandingPlace } from '../../../../shared/distil/landing.ts'
import { addProcedure, markVersion, writeText } from '../../../../shared/lab/acts.ts'
import type { EntryId, PartId, StepId } from '../../../../shared/lab/ids.ts'
import type { Part, Range, TextNode } from '../../../../shared/lab/model.ts'
import { changeBetween } from '../../../../shared/lab/text.ts'
import { openScene, type Scene } from '../panes/procedure/scene.ts'

export async function carriedTwice() {
  const scene = await openScene()
  const entry = (await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), {
    at: 'journal',
  })) as EntryId
  const record = (await scene.lab.queries.findEntry(entry))!
  const text = (await scene.lab.queries.findText(entry))!.text
  const place = { at: 'new step', procedure: scene.procedure, after: null } as const
  const part = (await scene.carry(scene.fromEntry(record, text), place)) as PartId
  const step = (await scene.lab.queries.findPart(part))!.step as StepId
  return { scene, entry, part, step }
}

/** Puts another text into an entry or a part; what stands at both ends of both texts keeps its identity. */
export async function rewrite(scene: Scene, node: TextNode, next: (before: string) => string): Promise<void> {
  const standing = (await scene.lab.queries.standing(node.id))!
  const changeSet = changeBetween(standing.text, next(standing.text))
  await scene.commit(writeText(scene.lab.surroundings, node, standing.revision, changeSet).change)
}

/** Words of a part as they are copied. */
export async function fragmentOfPart(scene: Scene, id: PartId, words?: string) {
  const part = (await scene.lab.queries.findPart(id)) as Part
  const { text, revision } = (await scene.lab.queries.standing(id))!
  const start = words === undefined ? 0 : text.indexOf(words)
  const range: Range = { start, end: words === undefined ? text.length : start + words.length }
  const from = { lab: scene.lab.id, node: { kind: 'part', id } as const, revision, title: '', address: null }
  return pickFragment({ ...from, origin: { kind: 'part', partKind: part.kind }, text }, [range])!
}

/** Another procedure whose one step quotes a part of the first. */
export async function reuse(scene: Scene, id: PartId, words?: string) {
  const begun = addProcedure(scene.lab.surroundings, scene.project, 'Move the dome’s computer')
  await scene.commit(begun.change)
  const place: LandingPlace = { at: 'new step', procedure: begun.procedure.id, after: null }
  const fragment = await fragmentOfPart(scene, id, words)
  const result = await carryTo(scene.lab, await scene.view(), fragment, place, 'copy')
  if (!result.ok) throw new Error(result.sentence)
  return { procedure: begun.procedure.id, part: result.value.node.id as PartId }
}

/** Marks the procedure as it stands as its next version. */
export async function markNow(scene: Scene, line: string) {
  const { procedures, versions, steps, parts } = await scene.view()
  const procedure = procedures.get(scene.procedure)!
  const standing = [...parts.values()].map(async (part) => ({
    part,
    revision: (await scene.lab.queries.standing(part.id))!.revision,
  }))
  const state = {
    ...{ procedure, steps: [...steps.values()], parts: await Promise.all(standing), parameters: [] },
  }
  const marked = markVersion(scene.lab.surroundings, state, versions.size, line)
  await scene.commit(marked.change)
  return marked.version
}
