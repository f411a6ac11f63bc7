/** Checks the types of every folder against its own tsconfig: what a folder may touch is part of its types. */
import { spawnSync } from 'node:child_process'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('..', import.meta.url))
const compiler = createRequire(import.meta.url).resolve('typescript/bin/tsc')
const failed = ['shared', 'renderer', 'app', 'build', 'test'].filter((folder) => {
  const run = spawnSync(process.execPath, [compiler, '-p', folder], { cwd: root, stdio: 'inherit' })
  return run.status !== 0
})
console.log(failed.length === 0 ? 'The types agree.' : `The types disagree in: ${failed.join(', ')}.`)
process.exitCode = failed.length === 0 ? 0 : 1
