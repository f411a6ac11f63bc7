/** The two ways out of the program for what the person made: a file, and paper. */
import type { HostAnswer, HostArgument, HostResult } from '../../shared/host.ts'
import type { SecretFound } from '../../shared/safety/secrets/scan.ts'
import type { Workspace } from '../store/workspace.ts'
import { mayLeave } from './leaving.ts'

/** What was looked through for secrets before it leaves. */
export interface LookedThrough {
  readonly found: readonly SecretFound[]
  /** As the subject of a sentence: 'The Markdown file'. */
  readonly what: string
}

/**
 * Why nobody is asked: the bytes came from outside and the person asks for this one thing, or what is written holds names
 * and sums alone.
 */
export type Unasked = 'original' | 'sums'

/** Writes a file where the person says, after showing what looks like a secret in it. */
export async function letFileOut(
  { host }: Pick<Workspace, 'host'>,
  looked: LookedThrough | Unasked,
  file: HostArgument<'saveFile'>,
): Promise<HostResult<HostAnswer<'saveFile'>>> {
  return (await isLetOut(looked)) ? host.saveFile(file) : cancelled
}

/** Prints the page that `onPage` sets, after showing what looks like a secret on it; `onPage` is given the printing itself. */
export async function letPrintOut(
  { host }: Pick<Workspace, 'host'>,
  looked: LookedThrough,
  page: HostArgument<'printPage'>,
  onPage: (print: () => Promise<Printed>) => Promise<Printed>,
): Promise<Printed> {
  return (await isLetOut(looked)) ? onPage(() => host.printPage(page)) : cancelled
}

type Printed = HostResult<HostAnswer<'printPage'>>

const cancelled = { ok: true, value: { kind: 'cancelled' } } as const

function isLetOut(looked: LookedThrough | Unasked): Promise<boolean> {
  return typeof looked === 'string' ? Promise.resolve(true) : mayLeave(looked.found, looked.what)
}
