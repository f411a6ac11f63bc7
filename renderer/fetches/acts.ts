/** What a person says of the things to fetch, as calls on the workspace, and the list as it leaves the program. */
import { toFileName, type HostResult } from '../../shared/host.ts'
import { tickDownload } from '../../shared/lab/beside-acts.ts'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import type { WantedFetch } from '../../shared/procedure/fetches/fetchList.ts'
import {
  isFetched,
  toFetchMarkdown,
  toFetchText,
  toSumsFile,
  type ListedFetch,
  type SumsFile,
} from '../../shared/procedure/fetches/written.ts'
import { findSecrets } from '../../shared/safety/secrets/scan.ts'
import { letFileOut } from '../leaving/index.ts'
import { partOfProcedure } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'

/** Ticks it off, or takes the tick back. */
export function tick(
  workspace: Workspace,
  procedure: ProcedureId,
  { item, record }: WantedFetch,
  isOn: boolean,
): Promise<boolean> {
  const { surroundings } = workspace.requireLab()
  const says = { isFetched: isOn, sha256: record?.sha256 ?? null }
  return workspace.commit(tickDownload(surroundings, procedure, item, record, says))
}

/** Notes its SHA-256, or that it has none. @returns whether that is what stands now */
export async function noteSum(
  workspace: Workspace,
  procedure: ProcedureId,
  wanted: WantedFetch,
  sha256: string | null,
): Promise<boolean> {
  const { item, record } = wanted
  if ((record?.sha256 ?? null) === sha256) return true
  const { surroundings } = workspace.requireLab()
  const says = { isFetched: isFetched(wanted), sha256 }
  return workspace.commit(tickDownload(surroundings, procedure, item, record, says))
}

/** Puts the list on the clipboard. */
export async function copyList(workspace: Workspace, items: readonly ListedFetch[]): Promise<void> {
  const copied = await workspace.host.copyText({ text: toFetchText(items) })
  workspace.say(copied.ok ? 'done' : 'problem', copied.ok ? 'Copied the list.' : copied.sentence)
}

type Saved = HostResult<{ kind: 'saved'; name: string } | { kind: 'cancelled' }>

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Writes the list to a Markdown file. @returns why not; null where it was written or the person closed the dialog */
export async function saveList(
  workspace: Workspace,
  procedure: ProcedureId,
  items: readonly ListedFetch[],
): Promise<string | null> {
  const title = titleOf(workspace, procedure)
  const text = toFetchMarkdown(title, items)
  const saved = await letFileOut(
    workspace,
    { found: findSecrets(text), what: 'The list' },
    {
      suggestedName: `${toFileName(`To fetch for ${title}`, 'To fetch')}.md`,
      mediaType: 'text/markdown',
      bytes: bytesOf(text),
    },
  )
  return sayOf(workspace, saved, (name) => `The list was written to “${name}”.`)
}

/** Writes the file of sums. */
export async function saveSums(workspace: Workspace, sums: SumsFile): Promise<string | null> {
  const saved = await letFileOut(workspace, 'sums', {
    suggestedName: 'SHA256SUMS',
    mediaType: 'text/plain',
    bytes: bytesOf(sums.text),
  })
  return sayOf(
    workspace,
    saved,
    (name) => `“${name}” was written. Check with “sha256sum -c ${name}” in the folder of the files.`,
  )
}

function sayOf(workspace: Workspace, saved: Saved, words: (name: string) => string): string | null {
  if (!saved.ok) return saved.sentence
  if (saved.value.kind === 'saved') workspace.say('done', words(saved.value.name))
  return null
}

function titleOf(workspace: Workspace, procedure: ProcedureId): string {
  const view = workspace.requireView()
  const title = partOfProcedure(view, procedure, 'title')
  return plainWords((title && view.texts.get(title.id)) ?? '', 60) || 'an untitled procedure'
}

/** What the file of sums holds and what it leaves out, for the person. */
export function wordsOfSums(items: readonly WantedFetch[]): string {
  const { count, leftOut } = toSumsFile(items)
  const held =
    count === 0
      ? 'No item has both a SHA-256 and a known file name.'
      : `The file of sums holds ${count === 1 ? '1 line' : `${count} lines`}.`
  const of = (why: (typeof leftOut)[number]['why']): number => leftOut.filter((one) => one.why === why).length
  const unnamed = of('no name')
  const taken = of('name taken')
  return [
    held,
    ...(unnamed > 0
      ? [`${unnamed} with a SHA-256 ${unnamed === 1 ? 'is' : 'are'} left out: the command names no file.`]
      : []),
    ...(taken > 0
      ? [`${taken} ${taken === 1 ? 'is' : 'are'} left out: another file has the same name.`]
      : []),
  ].join(' ')
}
