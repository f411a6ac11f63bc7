/** The sample's procedures as the review reads them, out of a lab into which the sample was loaded. */
import { loadSample } from '../../renderer/labs/loadSample.ts'
import { sample } from '../../renderer/labs/sample/index.ts'
import { documentOf } from '../../shared/procedure/review/document.ts'
import type { ReviewedDocument } from '../../shared/procedure/review/types.ts'
import { openTestLab, repeatableSurroundings } from '../unit/support/lab.ts'

export interface SampleReviewed {
  readonly title: string
  readonly document: ReviewedDocument
}

export async function sampleReviewed(): Promise<SampleReviewed[]> {
  const lab = await openTestLab(repeatableSurroundings())
  await loadSample(lab, sample)
  const all: SampleReviewed[] = []
  for (const { id } of await lab.queries.projects()) {
    const read = await lab.queries.project(id)
    const texts = new Map(read.texts.map(({ node, text }) => [node as string, text]))
    for (const procedure of read.procedures) {
      const document = documentOf({ ...read, procedure, texts })
      const title = document.parts.find(({ kind }) => kind === 'title')?.text ?? ''
      all.push({ title, document })
    }
  }
  return all
}
