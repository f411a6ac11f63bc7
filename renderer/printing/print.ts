/** Printing a procedure, as a call on the workspace. */
import { toFileName, type HostAnswer, type HostArgument, type HostResult } from '../../shared/host.ts'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { systemClock } from '../../shared/lab/moment.ts'
import type { Parameter } from '../../shared/lab/model.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { compareVersions } from '../../shared/procedure/versions/compare.ts'
import type { Values } from '../../shared/procedure/values/placeholders.ts'
import { SecretScan, type SecretFound } from '../../shared/safety/secrets/scan.ts'
import { listedIn } from '../fetches/index.ts'
import { letPrintOut } from '../leaving/index.ts'
import type { ShownProcedure } from '../panes/procedure/shown.ts'
import { parametersOf, versionsOf, type ProjectView } from '../store/view.ts'
import type { Workspace } from '../store/workspace.ts'
import { readStated, standingStated } from '../versions/stated.ts'
import { usePrinting, type PrintJob } from './job.ts'
import { WAITING } from './PrintBlocks.tsx'

export type PrintChoice = Pick<HostArgument<'printPage'>, 'to' | 'paper'>

/** A procedure as it is to be printed. */
export interface ToPrint {
  readonly shown: ShownProcedure
  /** What was filled in and is no secret; nothing where it is printed as it is. */
  readonly values: Values
  /** Secrets that this paper may hold. */
  readonly secrets: Values
}

/** Prints a procedure as it is given, and takes it off the page again. */
export async function printProcedure(
  workspace: Workspace,
  { shown, values, secrets }: ToPrint,
  choice: PrintChoice,
): Promise<HostResult<HostAnswer<'printPage'>>> {
  const view = workspace.requireView()
  const parameters = parametersOf(view, shown.id)
  const job = {
    ...{ shown, parameters, values, secrets },
    fetches: listedIn(view, shown.id, workspace.state.machines, filledTexts(shown, values, parameters)),
    version: await versionWords(workspace, view, shown.id),
    printed: systemClock.now().slice(0, 16).replace('T', ' '),
  }
  const title = plainWords(shown.title?.text ?? '', 80)
  const page = { ...choice, suggestedName: `${toFileName(title, 'procedure')}.pdf` }
  return letPrintOut(
    workspace,
    { found: secretsIn(job), what: 'What is to be printed' },
    page,
    async (print) => {
      usePrinting.setState({ job })
      try {
        await isDrawn()
        return await print()
      } finally {
        usePrinting.setState({ job: null })
      }
    },
  )
}

/** Secrets that the person said this paper may hold are not asked about again: they stand in no text. */
function secretsIn({ shown, fetches }: Pick<PrintJob, 'shown' | 'fetches'>): SecretFound[] {
  const scan = new SecretScan()
  for (const { text } of [...shown.own, ...shown.steps.flatMap(({ parts }) => parts)]) scan.read(text)
  scan.readAll(fetches)
  return scan.found
}

/** The texts as they are printed: with values, placeholders that are left stand for themselves. */
function filledTexts(shown: ShownProcedure, values: Values, parameters: readonly Parameter[]) {
  const parts = [...shown.own, ...shown.steps.flatMap((step) => step.parts)]
  const texts = new Map<string, string>(parts.map(({ part, text }) => [part.id, text]))
  return values.size === 0 ? { texts, parameters } : { texts, parameters: [] }
}

async function versionWords(
  workspace: Workspace,
  view: ProjectView,
  procedure: ProcedureId,
): Promise<string> {
  const last = versionsOf(view, procedure).at(-1)
  if (!last) return 'No version marked'
  const stated = await readStated(workspace.requireLab().queries, last)
  const { isSame } = compareVersions(stated, standingStated(view, procedure))
  return isSame ? `Version ${last.number}` : `Changed since version ${last.number}`
}

/** As long as a diagram or a picture may take before it is printed without it, in milliseconds. */
const MOST_WAIT = 15_000

/** Waits until all that is to be printed stands in the page: texts, faces, diagrams, pictures. */
async function isDrawn(): Promise<void> {
  const end = performance.now() + MOST_WAIT
  const layer = (): Element | null => document.querySelector('.st-print')
  while (!layer() || layer()?.querySelector(`[${WAITING}]`)) {
    if (performance.now() > end) break
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
  await document.fonts.ready
  const pictures = [...(layer()?.querySelectorAll('img') ?? [])]
  await Promise.all(pictures.map((picture) => picture.decode().catch(() => undefined)))
}
