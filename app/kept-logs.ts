/** The logs that people named for their labs, kept in a small file beside the labs. Without Electron. */
import { randomBytes } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import * as v from 'valibot'
import { done, failed, type HostResult, type KnownLog } from '../shared/host.ts'
import { writeWhole } from './disk.ts'
import { toSentence } from './sentences.ts'

const keptLog = v.object({ log: v.string(), path: v.string(), timing: v.nullable(v.string()) })
const kept = v.object({ logs: v.record(v.string(), v.array(keptLog)) })

/** A log by its token, with the paths of its file and of its timing file. */
export type KeptLog = Readonly<v.InferOutput<typeof keptLog>>

export class KeptLogs {
  private logs: ReadonlyMap<string, readonly KeptLog[]>
  private writing: Promise<void> = Promise.resolve()

  constructor(private readonly file: string) {
    this.logs = readKept(file)
  }

  list(lab: string): readonly KeptLog[] {
    return this.logs.get(lab) ?? []
  }

  maybe(lab: string, log: string): KeptLog | undefined {
    return this.list(lab).find((one) => one.log === log)
  }

  /** Remembers a log that the person chose for a lab; one that is known already stays as it is. */
  add(lab: string, path: string): Promise<HostResult<KeptLog>> {
    const known = this.list(lab).find((one) => one.path === path)
    if (known !== undefined) return Promise.resolve(done(known))
    const log = { log: randomBytes(16).toString('hex'), path, timing: null }
    return this.change(lab, [...this.list(lab), log], log, 'The log could not be remembered')
  }

  setTiming(lab: string, before: KeptLog, timing: string): Promise<HostResult<KeptLog>> {
    const log = { ...before, timing }
    const logs = this.list(lab).map((one) => (one.log === log.log ? log : one))
    return this.change(lab, logs, log, 'The timing file could not be remembered')
  }

  forget(lab: string, log: string): Promise<HostResult<null>> {
    const logs = this.list(lab).filter((one) => one.log !== log)
    return this.change(lab, logs, null, 'The log could not be forgotten')
  }

  /** One write after the other, each of all that is known then; what could not be written is not so. */
  private async change<T>(
    lab: string,
    logs: readonly KeptLog[],
    value: T,
    what: string,
  ): Promise<HostResult<T>> {
    const before = this.list(lab)
    this.logs = new Map([...this.logs, [lab, logs]])
    const write = (): Promise<void> => {
      const text = JSON.stringify({ logs: Object.fromEntries(this.logs) }, null, 2)
      return writeWhole(this.file, new TextEncoder().encode(text))
    }
    const written = this.writing.then(write)
    this.writing = written.catch(() => undefined)
    try {
      await written
      return done(value)
    } catch (error) {
      this.logs = new Map([...this.logs, [lab, before]])
      return failed('not written', toSentence(what, error))
    }
  }
}

/** A log as the screen knows it. */
export function toKnown({ log, path, timing }: KeptLog): KnownLog {
  return { log, path, name: basename(path), timing: timing === null ? null : basename(timing) }
}

/** Without a file, and from one that cannot be read as such, no logs: the person then names them again. */
function readKept(file: string): Map<string, readonly KeptLog[]> {
  try {
    const parsed = v.safeParse(kept, JSON.parse(readFileSync(file, 'utf8')))
    return new Map(parsed.success ? Object.entries(parsed.output.logs) : [])
  } catch {
    return new Map()
  }
}
