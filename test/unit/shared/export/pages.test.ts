import { describe, expect, it } from 'vitest'
import { procedureToMarkdown } from '../../../../shared/export/procedure-markdown.ts'
import type { ExportedSource, Origin } from '../../../../shared/export/input.ts'
import type { SourceId } from '../../../../shared/lab/ids.ts'

const source = (page: string | null): Origin => {
  const exported: ExportedSource = { title: 'Manual', address: null, taken: null, page }
  return { kind: 'source', id: 'one' as SourceId, source: exported }
}
const write = (pages: readonly (string | null)[]): string =>
  procedureToMarkdown(
    {
      title: 'T',
      purpose: '',
      steps: pages.map((page) => ({ parts: [{ kind: 'do', text: 'Wait.', origins: [source(page)] }] })),
    },
    { journal: false },
  )

describe('the footnote of a paged source', () => {
  it('names the page', () => {
    expect(write(['page 12'])).toContain('Source: Manual, page 12.')
  })

  it('is another one for another page, and the same for the same', () => {
    const text = write(['page 12', 'pages iv to 2', 'page 12', null])
    expect(text.match(/^\[\^\d+\]:/gmu)).toHaveLength(3)
    expect(text).toContain('Source: Manual, pages iv to 2.')
    expect(text).toContain('Source: Manual.')
  })
})
