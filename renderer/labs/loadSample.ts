/** Loads the sample into an empty lab. Its content is fetched only then. */
import type { CaptureInput } from '../../shared/lab/acts.ts'
import { intakeFile } from '../../shared/intake/file.ts'
import type { OpenLab } from '../db/lab.ts'
import type { Workspace } from '../store/workspace.ts'
import type { SampleLab, SampleSource } from './sample/format.ts'
import { sampleChanges } from './sampleChanges.ts'

const randomBytes = (count: number): Uint8Array => crypto.getRandomValues(new Uint8Array(count))

/** Fills the open lab with the sample and opens its first project. Refused where the lab is not empty. */
export async function loadSampleInto(workspace: Workspace): Promise<void> {
  const lab = workspace.requireLab()
  const { sample } = await import('./sample/index.ts')
  if (!(await loadSample(lab, sample))) {
    workspace.say(
      'problem',
      'The sample is loaded into an empty lab only. Start another lab from the lab menu first.',
    )
    return
  }
  await workspace.catchUp()
  const first = workspace.state.projects[0]
  if (first) await workspace.openProject(first.id)
}

/** @returns false where the lab already holds something; nothing was written then */
export async function loadSample(lab: OpenLab, sample: SampleLab): Promise<boolean> {
  if (!(await lab.isEmpty())) return false
  const captures = new Map<string, CaptureInput>()
  for (const source of sample.sources) captures.set(source.key, await captureOf(source))
  const result = await lab.committer.commitAll(sampleChanges(sample, lab.id, captures, randomBytes))
  return result.ok
}

async function captureOf({ key, original, mediaType }: SampleSource): Promise<CaptureInput> {
  const bytes = new TextEncoder().encode(original)
  const ending = { 'text/html': 'html', 'text/markdown': 'md', 'text/plain': 'txt' }[mediaType]
  const taken = intakeFile(`${key}.${ending}`, bytes)
  if (!taken.ok) throw new Error(`the sample's source ${key}: ${taken.sentence}`)
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
  return { text: taken.text, bytes, sha256, mediaType }
}
