/** The keys of the procedure, by where they count. */
import { COVERAGE_KEYS } from '../coverage/open.ts'
import { DRAFT_KEYS } from '../draft/open.ts'
import { FETCHES_KEYS } from '../fetches/open.ts'
import { KEY_OF_MAKING } from '../parameters/dialogue.ts'
import { REVIEW_KEYS } from '../review/open.ts'

export interface KeyLine {
  /** Any of them. */
  readonly keys: readonly string[]
  readonly does: string
}

export interface KeyGroup {
  readonly where: string
  readonly lines: readonly KeyLine[]
}

const line = (keys: readonly string[], does: string): KeyLine => ({ keys, does })

export const procedureKeys: readonly KeyGroup[] = [
  {
    where: 'Anywhere while a procedure is shown',
    lines: [
      line([REVIEW_KEYS], 'Review: what it still lacks'),
      line([COVERAGE_KEYS], 'What of the journal is missing in it'),
      line([DRAFT_KEYS], 'Draft steps from the journal'),
      line([FETCHES_KEYS], 'What to fetch before the network is cut'),
    ],
  },
  {
    where: 'On a step or a section',
    lines: [
      line(['↑', '↓', 'Home', 'End'], 'To the next one, the first, the last'),
      line(['Enter', 'F2'], 'Type what is to be done, or the section’s name'),
      line(['Alt+↑', 'Alt+↓'], 'Move it with all under it'),
      line(['Alt+→', 'Alt+←'], 'Make a sub-step of a step, a step of a sub-step'),
      line(['Alt+Shift+↑', 'Alt+Shift+↓'], 'Join it with the step before, behind'),
      line(['Shift+↑', 'Shift+↓', 'Ctrl+A'], 'Choose several, or all'),
      line(['Delete'], 'Remove those that are chosen'),
      line(['Ctrl+X', 'Ctrl+V'], 'Cut it, put what was cut behind it'),
      line(['Alt+P'], 'Say its place'),
      line(['Alt+R'], 'Add a remark'),
      line(['Alt+T'], 'Trace where it came from'),
      line(['Escape'], 'Choose none, or call off what was cut'),
    ],
  },
  {
    where: 'On a part of a step, or of the procedure',
    lines: [
      line(['Enter', 'F2'], 'Type in it'),
      line([KEY_OF_MAKING], 'Make a parameter of the selected value'),
      line(['Alt+C'], 'Carry it, or the selected words'),
      line(['Alt+T'], 'Trace it, or the selected words'),
      line(['Ctrl+X', 'Ctrl+V'], 'Cut it, put what was cut here'),
      line(['Escape'], 'Back to its step'),
    ],
  },
  {
    where: 'While a text is typed',
    lines: [
      line(['Escape', 'Ctrl+Enter'], 'End typing; in a title and a section’s name Enter does too'),
      line(['Alt+Enter'], 'Split the step at the cursor'),
      line([KEY_OF_MAKING], 'Make a parameter of the selected value'),
      line(['Alt+C'], 'Carry the selected words'),
      line(['Alt+T'], 'Trace the selected words, or all of it'),
      line(['Ctrl+X', 'Ctrl+V'], 'Words that are cut and put elsewhere keep their link'),
    ],
  },
  {
    where: 'In the review',
    lines: [
      line(['↑', '↓'], 'From one finding to the next'),
      line(['Enter'], 'To its words'),
      line(['M'], 'Mend it, where it can be mended safely'),
      line(['P'], 'Pass it over, with a reason'),
      line(['H'], 'Hear again what was passed over'),
      line(['F'], 'Forget what was passed over and is not found any more'),
    ],
  },
  {
    where: 'In what is missing',
    lines: [
      line(['Enter'], 'To where it stands'),
      line(['C'], 'Carry it over'),
      line(['L'], 'Leave it out, with a reason'),
      line(['T'], 'Take in again what was left out'),
    ],
  },
  {
    where: 'In a draft',
    lines: [
      line(['Space'], 'Tick a step'),
      line(['Enter'], 'Add the ticked ones'),
      line(['Shift+Enter'], 'Add all that are shown'),
    ],
  },
]
