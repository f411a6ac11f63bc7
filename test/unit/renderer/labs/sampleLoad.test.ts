import { describe, expect, it } from 'vitest'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import { loadSample } from '../../../../renderer/labs/loadSample.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { recordsOf } from '../../support/story.ts'

describe('loading the sample', () => {
  it('fills an empty lab with every record, and leaves a lab that holds something as it is', async () => {
    const lab = await openTestLab(repeatableSurroundings())
    expect(await loadSample(lab, sample)).toBe(true)
    const { projects, sources, captures, entries, procedures, links } = await recordsOf(lab)
    const written = sample.projects.flatMap((project) => project.entries)
    expect(projects).toHaveLength(sample.projects.length)
    expect(sources).toHaveLength(sample.sources.length)
    expect(captures).toHaveLength(sample.sources.length)
    expect(entries).toHaveLength(written.length)
    expect(procedures).toHaveLength(3)
    const parts = sample.projects.flatMap(({ procedures: own }) =>
      own.flatMap(({ steps }) => steps.flatMap((step) => step.parts)),
    )
    const carries = [...written, ...parts].flatMap((one) => one.carries ?? [])
    const answers = written.filter((entry) => entry.answers !== undefined)
    expect(links).toHaveLength(carries.length + answers.length)
    const before = await lab.dump()
    expect(await loadSample(lab, sample)).toBe(false)
    expect(await lab.dump()).toEqual(before)
  })
})
