import { appendFileSync, writeFileSync } from 'node:fs'
import { it } from 'vitest'
import { foundIn } from './support/worked.ts'
it('x', async () => {
  writeFileSync('/tmp/seen.txt', '')
  for (const name of (process.env.LOOK ?? '').split(','))
    for (const f of await foundIn(name)) appendFileSync('/tmp/seen.txt', JSON.stringify([f.exitCode, f.place, f.command]) + '\n' + f.output.split('\n').map((l) => '    ' + l).join('\n') + '\n')
})
