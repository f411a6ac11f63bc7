/** Going to what was found: another project is opened first, panes are unfolded, the words that were found are marked. */
import type { LinkNode, Range } from '../../shared/lab/model.ts'
import type { AnswerPassage } from '../../shared/find/ask/answerer.ts'
import type { ProjectId, StepId } from '../../shared/lab/ids.ts'
import { unfoldPane } from '../frame/index.ts'
import { showFoundParameter } from '../parameters/index.ts'
import { goToEnd } from '../ribbons/going.ts'
import type { Workspace } from '../store/workspace.ts'
import { showVersions } from '../versions/index.ts'
import type { FoundCommand, FoundHit } from '../workers/find.ts'

export async function goToHit(workspace: Workspace, { goal, projects }: FoundHit): Promise<void> {
  const inside = projects.map(({ id }) => id)
  switch (goal.kind) {
    case 'node':
      return goToWords(workspace, goal.node, goal.ranges, inside)
    case 'procedure':
      await openOneOf(workspace, inside)
      unfoldPane('procedure')
      return workspace.set({ procedure: goal.id })
    case 'parameter':
      await openOneOf(workspace, inside)
      unfoldPane('procedure')
      // The list of parameters stands at the procedure's head, where a panel would lie over it.
      workspace.set({ procedure: goal.procedure, panel: null })
      return showFoundParameter(workspace, goal.id, goal.words)
    case 'version':
      await openOneOf(workspace, inside)
      return showVersions(workspace, goal.procedure, { number: goal.number, words: goal.words })
    case 'project':
      return openOneOf(workspace, [goal.id])
    case 'machine':
      return workspace.set({ panel: { kind: 'machines', machine: goal.id } })
  }
}

/** To the time that it was run last, with the command marked. */
export function goToCommand(workspace: Workspace, { runs }: FoundCommand): Promise<void> {
  const { entry, range, project } = runs[0]!
  return goToWords(workspace, { kind: 'entry', id: entry }, [range], [project.id])
}

/** To the words of an answer; a thing without a text is found by its name instead. */
export async function goToPassage(
  workspace: Workspace,
  { node, range, words }: AnswerPassage,
): Promise<void> {
  if (!node) return workspace.say('notice', 'It has no text to go to. Look for it by its name.')
  const isThere = await goToEnd(workspace, node, words.length > 0 ? words : [range])
  if (!isThere) workspace.say('notice', 'It stands no more.')
}

/** To what a step says first. */
export async function goToStep(workspace: Workspace, id: StepId): Promise<void> {
  const matter = await workspace.requireLab().queries.stepMatter(id)
  const part = matter?.parts.find((one) => one.part.kind === 'do') ?? matter?.parts[0]
  if (!matter || !part) return workspace.say('notice', 'It stands no more.')
  await goToWords(workspace, { kind: 'part', id: part.part.id }, [], [matter.procedure.project])
}

async function goToWords(
  workspace: Workspace,
  node: LinkNode,
  ranges: readonly Range[],
  projects: readonly ProjectId[],
): Promise<void> {
  await openOneOf(workspace, projects)
  workspace.goTo(node, ranges)
}

/** What lies in the project that is shown, or in none, is looked at there. */
async function openOneOf(workspace: Workspace, projects: readonly ProjectId[]): Promise<void> {
  const shown = workspace.state.view?.project
  if (shown && projects.includes(shown)) return
  if (projects[0]) await workspace.openProject(projects[0])
}
