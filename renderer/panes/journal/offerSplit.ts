/** Scrollback of a terminal that was pasted into the composer is offered as entries: an action and an output for each command. */
import { EditorView } from '@codemirror/view'
import { splitScrollback } from '../../../shared/journal/scrollback/split.ts'
import { entriesOf } from '../../../shared/journal/terminal/offers.ts'
import type { FoundCommand } from '../../../shared/journal/terminal/found.ts'
import type { EntryInput } from '../../../shared/lab/acts.ts'
import { offsetOf } from '../../../shared/lab/moment.ts'
import type { EntryFacts } from '../../../shared/lab/model.ts'
import { logsOf } from '../../logs/logs.ts'
import { writeEntries } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'

/** What the composer must let be done with its text. */
export interface SplitPlace {
  readonly text: string
  readonly facts: EntryFacts
  /** Takes a text out again, where it still stands once. */
  takeOut(text: string): void
}

/** Longer pastes are no scrollback that somebody wants to read entry by entry. UTF-16 code units. */
const LONGEST = 2_000_000

/** An extension of the composer's editor. What is pasted stands there as always; the offer comes beside it. */
export function offeringSplit(workspace: Workspace, place: SplitPlace) {
  return EditorView.domEventHandlers({
    paste: (event) => {
      const text = event.clipboardData?.getData('text/plain').replace(/\r\n?/g, '\n') ?? ''
      if (text.includes('\n') && text.length <= LONGEST) setTimeout(() => offer(workspace, place, text))
      return false
    },
  })
}

function offer(workspace: Workspace, place: SplitPlace, text: string): void {
  const found = splitScrollback(text)
  if (!found) return
  const commands = found.filter(({ command }) => command !== '').length
  const words = `This looks like a terminal’s: ${commands} ${commands === 1 ? 'command' : 'commands'}.`
  const write = (taken: readonly FoundCommand[]): Promise<boolean> =>
    writeEntries(workspace, inputsOf(workspace, taken, place.facts))
  const onAct = (): void => logsOf(workspace).offerPasted(found, write, () => place.takeOut(text))
  workspace.say('notice', words, { word: 'Make entries of it', onAct })
}

/** The place that stands in the composer counts for commands that show none. */
function inputsOf(
  workspace: Workspace,
  found: readonly FoundCommand[],
  facts: EntryFacts,
): Omit<EntryInput, 'project'>[] {
  const { machines } = workspace.state
  const offset = offsetOf(workspace.requireLab().surroundings.clock.now())
  return found.flatMap((one) => {
    const inputs = entriesOf(one, { name: 'pasted', machine: null, machines, offset })
    return inputs.map((input) => ({ ...input, ran: null, place: input.place ?? facts.place }))
  })
}
