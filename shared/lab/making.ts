/** How acts make their Changes. */
import type { Act, Change, Operation, PutOperation, TableName, Tables } from './change.ts'
import type { IdMaker } from './ids.ts'
import type { Clock, Moment } from './moment.ts'

/** What the domain needs from outside: the time, fresh ids, and who is writing. */
export interface Surroundings {
  readonly clock: Clock
  readonly ids: IdMaker
  /** That many random bytes, for salts. */
  readonly randomBytes: (count: number) => Uint8Array
  /** The person's name if they gave one. */
  readonly who: () => string | null
}

/** A Change of this moment. */
export function makeChange(
  around: Surroundings,
  act: Act,
  operations: readonly Operation[],
  at?: Moment,
): Change {
  return {
    id: around.ids.make(),
    at: at ?? around.clock.now(),
    who: around.who(),
    act,
    reverses: null,
    operations,
  }
}

/**
 * Puts a record where none stands yet, or in the place of the one that does.
 * @param seen the record as it was when it was changed; what another window set since then, and this one left alone, stays
 */
export function put<T extends TableName>(
  table: T,
  record: Tables[T],
  seen: Tables[T] | null = null,
): PutOperation {
  return { op: 'put', table, record, before: seen } as unknown as PutOperation
}
