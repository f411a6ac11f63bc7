import { fail, type Failure } from '../../shared/lab/result.ts'

/** Why a Change was not committed. Nothing of it was written then. */
export type CommitFailure = Failure<
  'stale-revision' | 'append-only' | 'still-used' | 'missing' | 'nothing-left' | 'disk-full' | 'closed'
>

/** Leaves a transaction from within; never gets out of this folder. */
export class Refusal extends Error {
  constructor(readonly failure: CommitFailure) {
    super(failure.sentence)
    this.name = 'Refusal'
  }
}

/** Aborts the transaction with an expected failure. */
export function refuse(code: CommitFailure['code'], sentence: string): never {
  throw new Refusal(fail(code, sentence))
}

/** Runs a transaction and turns what may be expected of it into values. Everything else is a bug and is thrown on. */
export async function withRefusals<T>(
  run: () => Promise<T>,
): Promise<{ ok: true; value: T } | CommitFailure> {
  try {
    return { ok: true, value: await run() }
  } catch (error) {
    if (error instanceof Refusal) return error.failure
    const names = namesOf(error)
    if (names.includes('QuotaExceededError'))
      return fail(
        'disk-full',
        'There is no room left on the disk, so this was not saved. It still stands on the screen. Make room, then do it again.',
      )
    if (names.includes('DatabaseClosedError'))
      return fail(
        'closed',
        'The lab was closed in the meantime, so this was not saved. Open it and do it again.',
      )
    throw error
  }
}

/** An error's name and those of the errors that it wraps. */
function namesOf(error: unknown): string[] {
  const names: string[] = []
  let at: unknown = error
  for (let depth = 0; depth < 5 && typeof at === 'object' && at !== null; depth++) {
    if ('name' in at) names.push(String(at.name))
    at = 'inner' in at ? at.inner : null
  }
  return names
}
