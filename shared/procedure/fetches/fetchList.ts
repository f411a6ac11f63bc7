/** What a procedure wants from a network, so that it can be had before the network is cut. */
import type { Fetch, Part, Step } from '../../lab/model.ts'
import { whatItFetches, type Fetched, type FetchedKind } from '../../shell/fetches.ts'
import { heldBy, type Held } from '../coverage/held.ts'
import type { JournalRecords, ProcedureRecords } from '../coverage/records.ts'

export interface WantedFetch {
  /** What a Fetch record knows it by: `package smartmontools`. Stable as long as the commands name the same thing. */
  readonly item: string
  readonly kind: FetchedKind
  /** Null for all that is old, an index, and what an expansion decides. */
  readonly name: string | null
  /** Versions, tags and branches that were asked for, each once. */
  readonly versions: readonly string[]
  readonly tools: readonly string[]
  /** Whether bytes of it can be compared with a SHA-256 that stood somewhere. */
  readonly hasSum: boolean
  /** Where it is wanted, in the procedure's order; each part once. */
  readonly wanted: readonly { readonly step: Step | null; readonly part: Part }[]
  /** The record of it; null where none is kept. */
  readonly record: Fetch | null
}

export interface FetchList {
  readonly items: readonly WantedFetch[]
  /** Records of what no command wants any more. */
  readonly stale: readonly Fetch[]
}

/**
 * Every package, image, key and download that the commands of a procedure want, merged. Parameters stand with their carried
 * values; a placeholder without one stays in the item as it is.
 * @param records what is known of the procedure's items
 */
export function fetchListOf(
  procedure: ProcedureRecords,
  texts: Pick<JournalRecords, 'texts' | 'machines'>,
  records: readonly Fetch[] = [],
): FetchList {
  const items = new Map<string, WantedFetch>()
  for (const held of heldBy(procedure, texts)) {
    if (held.kind !== 'command' || !isInstruction(held)) continue
    for (const fetched of whatItFetches(held.text)) add(items, fetched, held, records)
  }
  const all = [...items.values()]
  return { items: all, stale: records.filter(({ item }) => !items.has(item)) }
}

/** What is only named in a reason is not fetched. */
const isInstruction = ({ part }: Held): boolean => part.kind !== 'why' && part.kind !== 'purpose'

function add(
  items: Map<string, WantedFetch>,
  fetched: Fetched,
  { step, part }: Held,
  records: readonly Fetch[],
): void {
  const item = itemOf(fetched)
  const before = items.get(item)
  const place = { step, part }
  items.set(item, {
    item,
    kind: fetched.kind,
    name: fetched.name,
    versions: withOne(before?.versions ?? [], fetched.version),
    tools: withOne(before?.tools ?? [], fetched.tool),
    hasSum: ['package', 'download', 'key', 'image'].includes(fetched.kind) && fetched.name !== null,
    wanted: [
      ...(before?.wanted ?? []),
      ...(before?.wanted.some((one) => one.part.id === part.id) ? [] : [place]),
    ],
    record: records.find((one) => one.item === item) ?? null,
  })
}

/** What is known by its kind and name; an index and what is not named by the program that fetches it. */
export function itemOf({ kind, name, tool }: Pick<Fetched, 'kind' | 'name' | 'tool'>): string {
  return name === null ? `${kind} of ${tool}` : `${kind} ${name}`
}

const withOne = (list: readonly string[], one: string | null): readonly string[] =>
  one === null || list.includes(one) ? list : [...list, one]
