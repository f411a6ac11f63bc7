/** Recorded work as entries of a journal: read from the terminal's log as the program reads it. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { LogDriver } from '../../../../../shared/journal/terminal/driver.ts'
import type { FoundCommand } from '../../../../../shared/journal/terminal/found.ts'
import { entriesOf } from '../../../../../shared/journal/terminal/offers.ts'
import type { EntryInput } from '../../../../../shared/lab/acts.ts'
import type { ProjectId } from '../../../../../shared/lab/ids.ts'

const folder = join(import.meta.dirname, '../../../../fixtures/worked')

/** The commands of a recording, with outputs, places and exit codes. */
export async function foundIn(name: string): Promise<FoundCommand[]> {
  const found: FoundCommand[] = []
  const driver = new LogDriver(
    { name: `${name}.log`, isLive: false, isTimed: false, measured: null },
    { columns: 110, rows: 30 },
    (message) => {
      if (message.kind === 'found') found.push(message.found)
    },
  )
  await driver.push(readFileSync(join(folder, `${name}.log`)), null)
  await driver.end()
  return found
}

/** What the entries of a recording say. */
export async function inputsOf(name: string, project: ProjectId): Promise<EntryInput[]> {
  const log = { name: `${name}.log`, machine: null, machines: [], offset: 0 }
  return (await foundIn(name)).flatMap((found) =>
    entriesOf(found, log).map((input) => ({ ...input, project })),
  )
}
