/** A lab in which words of an entry were carried into a step, and the link was then set to other words of the step. */
import { carry } from '../../../shared/distil/carry.ts'
import { pickFragment } from '../../../shared/distil/fragment.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { Link } from '../../../shared/lab/model.ts'
import { setLinkAgain } from '../../../shared/provenance/setAgain.ts'
import { openTestLab } from './lab.ts'

const SAID = 'The readings come in each minute.'

/** Opens it. `setAgain` sets a link to one more stretch of the step's text and gives the new link. */
export async function labWithRevisedLink() {
  const lab = await openTestLab()
  const around = lab.surroundings
  const { project, change } = acts.addProject(around, { title: 'Dome', aim: '', status: 'under way' })
  const { procedure, change: begun } = acts.addProcedure(around, project.id, 'Look at the logger')
  const noted = acts.addEntry(around, { project: project.id, kind: 'observation', text: SAID })
  await lab.committer.commitAll([change, begun, noted.change])
  const { entry } = noted
  const from = { lab: lab.id, title: '', address: null, node: { kind: 'entry', id: entry.id } as const }
  const fragment = pickFragment(
    {
      ...{ ...from, ...(await lab.queries.standing(entry.id))! },
      origin: { kind: 'entry', entryKind: 'observation' },
    },
    [{ start: 0, end: SAID.length }],
  )!
  const position = acts.positionBetween(null, null)
  const landing = { at: 'new step', procedure: procedure.id, position, kind: 'expect' } as const
  const { link: first, change: carried } = carry(around, fragment, landing, 'drag')
  await commit(carried)

  async function commit(one: Change): Promise<void> {
    const result = await lab.committer.commit(one)
    if (!result.ok) throw new Error(result.sentence)
  }
  async function setAgain(link: Link, words: string): Promise<Link> {
    const text = (await lab.queries.standing(link.newer.node.id as never))!
    const start = text.text.indexOf(words)
    const again = setLinkAgain(around, link, 'newer', text, { start, end: start + words.length })
    if (!again.ok) throw new Error(again.sentence)
    await commit(again.value)
    return (await lab.queries.standingLinks(link.newer.node.id)).find((one) => one.link.revises === link.id)!
      .link
  }
  const second = await setAgain(first, 'each minute')
  return { lab, project: project.id, procedure: procedure.id, first, second, setAgain }
}
