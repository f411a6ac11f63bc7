/** A lab with one long procedure, made by the program's own acts. */
import { generateNKeysBetween } from 'fractional-indexing'
import {
  addProcedure,
  addProject,
  beginPart,
  makeChange,
  newPart,
  newStep,
  put,
} from '../../shared/lab/acts.ts'
import type { Operation } from '../../shared/lab/change.ts'
import type { StepLevel, StepPartKind } from '../../shared/lab/model.ts'
import { openTestLab, repeatableSurroundings } from '../unit/support/lab.ts'
import { zippedLab } from './lab-zip.ts'

const textOf: Readonly<Partial<Record<StepPartKind, (number: number) => string>>> = {
  do: (number) => `Read gauge **${number}**:\n\n\`\`\`sh\nupsc ups@logger | grep battery.charge\n\`\`\``,
  expect: (number) => `\`battery.charge: ${number % 100}\`, within a minute.`,
  caution: () =>
    '**Notice:** The logger stops.\n\n*If not avoided:* readings are lost.\n\n*To avoid it:* wait.',
}

/** A lab whose one procedure has that many steps in sections of twenty, with sub-steps, as the bytes of a lab file. */
export async function longProcedureFile(count: number): Promise<Uint8Array> {
  const around = repeatableSurroundings(22)
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'A long way', aim: '', status: 'under way' })
  await lab.committer.commit(change)
  const begun = addProcedure(around, project.id, 'A long way', 'To see that it stays quick.')
  await lab.committer.commit(begun.change)
  const levels = Array.from({ length: count }, (_, i): StepLevel[] => {
    const own: StepLevel = i % 4 === 3 ? 'sub-step' : 'step'
    return i % 20 === 0 ? ['section', own] : [own]
  }).flat()
  const positions = generateNKeysBetween(null, null, levels.length)
  const operations = levels.flatMap((level, i): Operation[] => {
    const step = newStep(around, begun.procedure.id, positions[i]!, level)
    const kinds: StepPartKind[] = i % 10 === 5 ? ['caution', 'do', 'expect'] : ['do', 'expect']
    const parts =
      level === 'section'
        ? beginPart(around, newPart(around, step, 'heading'), `Section ${i}`).operations
        : kinds.flatMap((kind) => beginPart(around, newPart(around, step, kind), textOf[kind]!(i)).operations)
    return [put('steps', step), ...parts]
  })
  const result = await lab.committer.commit(makeChange(around, 'add a step', operations))
  if (!result.ok) throw new Error(result.sentence)
  return zippedLab(around, lab, 'Long')
}
