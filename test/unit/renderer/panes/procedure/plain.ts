import {
  bringPlain,
  toPlainWords,
  type PlainLanding,
} from '../../../../../renderer/panes/procedure/plainText.ts'
import type { Change } from '../../../../../shared/lab/change.ts'
import type { Part } from '../../../../../shared/lab/model.ts'
import type { Scene } from './scene.ts'

/** Brings a text in as another program's drop would. */
export async function bringPlainAt(scene: Scene, landing: PlainLanding, text: string): Promise<Change> {
  const { change } = bringPlain(scene.lab.surroundings, toPlainWords(text), landing)
  await scene.commit(change)
  return change
}

/** A part's text after another program's text was brought into it. */
export async function appendedTo(scene: Scene, part: Part, text: string): Promise<string> {
  const standing = (await scene.lab.queries.standing(part.id))!
  await bringPlainAt(scene, { at: 'part', part, text: standing }, text)
  return (await scene.lab.queries.standing(part.id))!.text
}
