/** A filled procedure leaves the program: by the clipboard or as a file. */
import { procedureToMarkdown } from '../../shared/export/procedure-markdown.ts'
import { toFileName, type HostResult } from '../../shared/host.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { fillPlaceholders, type Values } from '../../shared/procedure/values/placeholders.ts'
import { findSecrets } from '../../shared/safety/secrets/scan.ts'
import { letFileOut } from '../leaving/index.ts'
import { listedIn } from '../fetches/index.ts'
import { toExportInput } from '../panes/procedure/exportInput.ts'
import { readExportRecords } from '../panes/procedure/exportRecords.ts'
import type { ShownProcedure } from '../panes/procedure/shown.ts'
import type { Workspace } from '../store/workspace.ts'
import { fillProcedure } from './filled.ts'

/** The whole of it as one Markdown document, with its sources as footnotes. */
export async function filledMarkdown(
  workspace: Workspace,
  shown: ShownProcedure,
  values: Values,
): Promise<string> {
  const records = await readExportRecords(workspace.requireLab().queries, shown)
  const filled = fillProcedure(shown, values)
  const { machines } = workspace.state
  const input = {
    ...toExportInput(filled, records, machines),
    fetches: listedIn(workspace.requireView(), shown.id, machines, {
      texts: textsOf(filled),
      parameters: [],
    }),
  }
  return procedureToMarkdown(input, { journal: false })
}

/** The texts of a filled procedure, by part. */
function textsOf(filled: ShownProcedure): ReadonlyMap<string, string> {
  const parts = [...filled.own, ...filled.steps.flatMap((step) => step.parts)]
  return new Map(parts.map(({ part, text }) => [part.id, text]))
}

/** @param named values that may stand in the file's name */
export async function saveFilled(
  workspace: Workspace,
  shown: ShownProcedure,
  values: Values,
  named: Values,
): Promise<HostResult<{ kind: 'saved'; name: string } | { kind: 'cancelled' }>> {
  const markdown = await filledMarkdown(workspace, shown, values)
  const title = plainWords(fillPlaceholders(shown.title?.text ?? '', named).text, 80)
  return letFileOut(
    workspace,
    { found: findSecrets(markdown), what: 'The filled procedure' },
    {
      suggestedName: `${toFileName(title, 'procedure')}.md`,
      mediaType: 'text/markdown',
      bytes: new TextEncoder().encode(markdown),
    },
  )
}
