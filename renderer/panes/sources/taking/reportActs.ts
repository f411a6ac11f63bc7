/** What a person can do about a run that is through. */
import {
  changeSource,
  FolderFinder,
  makeChange,
  type SourceFields,
  type Surroundings,
} from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type { LabSources } from '../../../store/labSources.ts'
import { undo } from '../../../store/gestures.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { takeBackChanges, takeItems, takingOf } from '../taking.ts'
import type { Report, ReportLine } from './report.ts'

/** Takes back all that a run committed. */
export async function takeBack(workspace: Workspace, report: Report): Promise<void> {
  await takeBackChanges(workspace, report.changes)
  takingOf(workspace).board.changeReport(report.id, { changes: [], placed: [], wasTakenBack: true })
}

/** Takes back what one line tells of. */
export async function takeBackLine(workspace: Workspace, report: Report, line: ReportLine): Promise<void> {
  if (line.change === null) return
  await undo(workspace, line.change)
  takingOf(workspace).board.dropLine(report.id, line.id, true)
}

/** Makes a source of its own of what the lab had already, or of what was read again; that is taken back then. */
export async function addAsOwn(workspace: Workspace, report: Report, line: ReportLine): Promise<void> {
  const { item } = line
  if (!item) return
  takingOf(workspace).board.dropLine(report.id, line.id, report.isFew)
  if (line.kind === 'again' && line.change !== null && report.isFew) await undo(workspace, line.change)
  await takeItems(workspace, [{ ...item, isOwn: true }])
}

/** Puts the sources of a run into folders named like those that their files lay in, or takes them out of these again. */
export async function changeFolders(
  workspace: Workspace,
  report: Report,
  isInFolders: boolean,
): Promise<void> {
  const { labSources } = workspace.state
  const { board } = takingOf(workspace)
  if (!labSources) return
  board.changeReport(report.id, { isInFolders })
  const change = toFolderChange(workspace.requireLab().surroundings, labSources, report, isInFolders)
  if (change.operations.length === 0) return
  const isDone = await workspace.commit(change)
  board.changeReport(
    report.id,
    isDone ? { changes: [...report.changes, change.id] } : { isInFolders: !isInFolders },
  )
}

/** The Change for it; without operations where all stands so. */
export function toFolderChange(
  around: Surroundings,
  all: LabSources,
  { placed }: Pick<Report, 'placed'>,
  isInFolders: boolean,
): Change {
  const finder = new FolderFinder(around, [...all.folders.values()])
  const operations = placed.flatMap(({ source: id, directories }) => {
    const source = all.sources.get(id)
    if (!source) return []
    const folder = finder.ensure(directories)
    const others = source.folders.filter((one) => one !== folder)
    const folders = isInFolders && folder !== null ? [...others, folder] : others
    const fields: SourceFields = { folders }
    return folders.length === source.folders.length ? [] : changeSource(around, source, fields).operations
  })
  return makeChange(around, 'change sources', [...(isInFolders ? finder.operations : []), ...operations])
}
