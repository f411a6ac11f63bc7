/** What a lab has already, by address and by bytes. A value of one moment; made anew for each batch. */
import type { ProjectId, SourceId } from '../../../../shared/lab/ids.ts'
import type { CaptureHead, Source } from '../../../../shared/lab/model.ts'
import { addressKey } from '../../../../shared/sources/address-key.ts'
import { standingSource, type LabSources } from '../../../store/labSources.ts'

/** Parsing an address costs more than all the rest, and records keep their identity until they change. */
const keys = new WeakMap<Source, string>()

function keyOf(source: Source): string {
  const known = keys.get(source)
  if (known !== undefined) return known
  const key = source.address === null ? '' : addressKey(source.address)
  keys.set(source, key)
  return key
}

export class KnownSources {
  private readonly byKey = new Map<string, Source>()
  private readonly byBytes = new Map<string, CaptureHead[]>()
  private readonly newest = new Map<SourceId, CaptureHead>()

  /** @param project among equals the sources of this project come first, then the older ones */
  constructor(
    readonly all: LabSources,
    project: ProjectId | null = null,
  ) {
    const isUsed = ({ projects }: Source): boolean => project !== null && projects.includes(project)
    for (const source of all.sources.values()) {
      const key = keyOf(source)
      if (key === '') continue
      const standing = standingSource(all, source)
      const known = this.byKey.get(key)
      if (!known || (!isUsed(known) && isUsed(standing))) this.byKey.set(key, standing)
    }
    for (const head of all.heads.values()) this.addHead(head)
  }

  private addHead(head: CaptureHead): void {
    const equal = this.byBytes.get(head.sha256)
    if (equal) equal.push(head)
    else this.byBytes.set(head.sha256, [head])
    const standing = this.maybeStanding(head.source)
    if (!standing) return
    const newest = this.newest.get(standing.id)
    if (!newest || newest.id < head.id) this.newest.set(standing.id, head)
  }

  /** The source with this address, however it is spelt. */
  findByAddress(address: string): Source | undefined {
    return this.byKey.get(addressKey(address))
  }

  /** The sources that were made of these bytes at some time, each once. */
  findByBytes(sha256: string): readonly Source[] {
    const sources = (this.byBytes.get(sha256) ?? []).flatMap(({ source }) => this.maybeStanding(source) ?? [])
    return [...new Set(sources)]
  }

  /** A source's newest capture, also one of a source that was merged into it. */
  findNewest(source: SourceId): CaptureHead | undefined {
    return this.newest.get(source)
  }

  /** The source that stands for the one with this id; undefined where it is gone. */
  maybeStanding(id: SourceId): Source | undefined {
    const source = this.all.sources.get(id)
    return source && standingSource(this.all, source)
  }
}
