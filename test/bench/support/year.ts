/** A year of daily use, written through the program's own way of writing. The amounts are our own estimate. */
import { OpenLab } from '../../../renderer/db/lab.ts'
import { systemSurroundings } from '../../../renderer/db/surroundings.ts'
import { carry } from '../../../shared/distil/carry.ts'
import { pickFragment } from '../../../shared/distil/fragment.ts'
import { addEntry, addProcedure, addProject, addSource, writeText } from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { LabId, ProcedureId, ProjectId } from '../../../shared/lab/ids.ts'

export const year = { days: 250, entriesADay: 40, carriesADay: 10, revisionsADay: 60, sourcesADay: 2 }

const vocabulary =
  'mount disk logger card reading wind station root file system copy verify serial cable port address time server offset log error retry service unit start stop check sum'.split(
    ' ',
  )

let state = 20260302
function random(below: number): number {
  state = (state * 1664525 + 1013904223) >>> 0
  return Math.floor((state / 2 ** 32) * below)
}
const prose = (length: number): string => {
  let text = ''
  while (text.length < length)
    text += `${vocabulary[random(vocabulary.length)]!}${random(9) === 0 ? `-${random(10_000)}` : ''} `
  return text.slice(0, length).trim()
}

/** Text of a log never compresses to nothing: hexadecimal noise of that many characters. */
const noise = (length: number): string => Array.from({ length }, () => random(16).toString(16)).join('')

const around = systemSurroundings()
const { ids } = around

/** Fills a lab with a year. @returns how many Changes that made */
async function liveThroughAYear(): Promise<number> {
  const lab = await OpenLab.open(ids.make<LabId>(), { indexedDB, IDBKeyRange }, around)
  const { project, change } = addProject(around, { title: 'A year', aim: '', status: 'under way' })
  const procedure = addProcedure(around, project.id, 'Everything')
  await lab.committer.commitAll([change, procedure.change])
  for (let day = 0; day < year.days; day++)
    await lab.committer.commitAll(aDay(lab.id, project.id, procedure.procedure.id))
  const count = await lab.queries.sequence()
  lab.close()
  return count
}

function aDay(lab: LabId, project: ProjectId, procedure: ProcedureId): Change[] {
  const changes: Change[] = []
  for (let i = 0; i < year.sourcesADay; i++) {
    const text = prose(12_000)
    const bytes = new TextEncoder().encode(`<html>${noise(28_000)}${text}</html>`)
    const capture = { text, bytes, sha256: noise(64), mediaType: 'text/html' }
    changes.push(
      addSource(around, {
        title: prose(40),
        address: 'https://pages.example.org/',
        kind: 'page',
        wayIn: 'dropped',
        projects: [project],
        capture,
      }).change,
    )
  }
  for (let i = 0; i < year.entriesADay; i++) {
    const text = prose(40 + random(400))
    const entry = addEntry(around, { project, kind: 'action', text })
    changes.push(entry.change)
    if (i >= year.carriesADay) continue
    const picked = {
      lab,
      node: { kind: 'entry', id: entry.entry.id },
      revision: entry.revision,
      origin: { kind: 'entry', entryKind: 'action' },
      title: '',
      address: null,
      text,
    } as const
    const fragment = pickFragment(picked, [{ start: 0, end: text.length }])!
    const carried = carry(
      around,
      fragment,
      { at: 'new step', procedure, position: `a${changes.length}`, kind: 'do' },
      'drag',
    )
    changes.push(carried.change, ...revisionsOf(carried, text.length))
  }
  return changes
}

/** Rewording, a few words at a time, as pauses in typing cut it. */
function revisionsOf({ node, revision }: ReturnType<typeof carry>, length: number): Change[] {
  const changes: Change[] = []
  let [from, at] = [revision, length]
  for (let i = 0; i < year.revisionsADay / year.carriesADay; i++) {
    const words = ` ${prose(30)}`
    const written = writeText(around, node, from, [at, [0, words]])
    changes.push(written.change)
    from = written.revision
    at += words.length
  }
  return changes
}

Object.assign(globalThis, { liveThroughAYear })
