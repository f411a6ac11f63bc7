/** Rules about what a step lacks. */
import { undoOf } from '../../../shell/undo.ts'
import { changes, faultAt, faultOf, partOf, type Reading, type ReadRow } from '../reading.ts'
import { handbook, practice, remembered, type Rule } from '../rule.ts'
import type { Mend } from '../types.ts'

const changing = ({ commands }: ReadRow) => commands.find(({ seen }) => changes(seen))

/** The sub-steps of a step. */
function subStepsOf({ rows }: Reading, row: ReadRow): ReadRow[] {
  const after = rows.slice(rows.indexOf(row) + 1)
  const end = after.findIndex((one) => one.row.level !== 'sub-step')
  return row.row.level === 'step' ? after.slice(0, end < 0 ? undefined : end) : []
}

const noExpect: Rule = {
  id: 'no expect',
  name: 'Who changes something sees that it worked',
  why: 'A change that failed unseen is found three steps later, where nobody looks for it.',
  source: handbook('Red Hat modular documentation, Procedure modules, Verification'),
  declares: [],
  find: (reading) =>
    reading.rows.flatMap((row) => {
      const command = changing(row)
      const answered = [row, ...subStepsOf(reading, row)].some((one) => partOf(one, 'expect'))
      if (!command || answered) return []
      return [
        faultAt(
          row,
          command.part,
          command,
          'This changes something, and the step does not say what to see then.',
        ),
      ]
    }),
}

const noUndo: Rule = {
  id: 'no undo',
  name: 'There is a way back',
  why: 'Halfway through and stuck, a person needs the way back, and cannot work it out then.',
  source: remembered('ITIL and ISO/IEC 20000-1, change management: a plan to reverse an unsuccessful change'),
  declares: [],
  find: (reading) => {
    if (reading.own.some(({ part }) => part.kind === 'how to undo')) return []
    return reading.rows.flatMap((row) => {
      const command = changing(row)
      if (!command || row.row.pointOfNoReturn || partOf(row, 'undo')) return []
      const says = 'This changes something, and neither the step nor the procedure says how to undo it.'
      return [faultAt(row, command.part, command, says, undoMend(row, command.text))]
    })
  },
}

/** A way back is proposed where the step has one command and a table knows what undoes it. */
function undoMend({ row, commands }: ReadRow, text: string): Mend | null {
  const undo = commands.length === 1 ? undoOf(text) : null
  if (undo === null) return null
  const fence = `\`\`\`sh\n${undo}\n\`\`\``
  return {
    does: 'add a part',
    label: 'Add the command that undoes it',
    step: row.id,
    kind: 'undo',
    text: fence,
  }
}

const noEvidence: Rule = {
  id: 'no evidence',
  name: 'Each step rests on something',
  why: 'A step that nothing shows to have worked is a guess, and may be a wrong one.',
  source: practice,
  declares: [],
  find: (reading) =>
    reading.rows.flatMap((row) => {
      if (row.row.level === 'section' || row.parts.length === 0) return []
      const own = [row, ...subStepsOf(reading, row)]
      const ends = own.flatMap((one) => one.row.parts.map(({ olderEnds }) => olderEnds))
      if (ends.some((count) => count > 0)) return []
      return [faultOf(row, 'Nothing in the journal or in a source stands behind this step.')]
    }),
}

export const stepRules: readonly Rule[] = [noExpect, noUndo, noEvidence]
