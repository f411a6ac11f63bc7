import { it } from 'vitest'
import { sample } from '../../../../../renderer/labs/sample/index.ts'
import { seenCommands } from '../../../../../shared/shell/seen.ts'
import { effectOf } from '../../../../../shared/shell/effects.ts'
import { findProblems } from '../../../../../shared/shell/reading/read.ts'
import { readingEase } from '../../../../../shared/procedure/ease/ease.ts'
it('x', () => {
  for (const p of sample.projects.flatMap((p) => p.procedures)) {
    let all = p.purpose
    p.steps.forEach((s, i) => {
      for (const part of s.parts) {
        all += '\n\n' + part.text
        for (const m of part.text.matchAll(/```sh\n([^]*?)\n```/g)) {
          console.log(p.key, i + 1, part.kind, findProblems(m[1]!), seenCommands(m[1]!).map((c) => [c.name, effectOf(c).effects.join(','), effectOf(c).isKnown].join(' ')))
        }
      }
    })
    console.log(readingEase(all))
  }
})
