import fc from 'fast-check'
import { expect, it } from 'vitest'
import { signAfter } from '../../../../renderer/map/walking.ts'
import { foldMatter } from '../../../../shared/map/fold.ts'
import { placeMap } from '../../../../shared/map/layout.ts'
import { matters } from '../../shared/map/generated.ts'

const keys = ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown', 'Home', 'End']

it('every sign is reached from the first one by keys alone', () => {
  fc.assert(
    fc.property(matters, (matter) => {
      const map = placeMap(foldMatter(matter, new Set()))
      const met = new Set(map.nodes.slice(0, 1).map(({ key }) => key))
      for (const from of met)
        for (const key of keys) {
          const next = signAfter(map, from, key)
          if (next !== null) met.add(next)
        }
      expect(met.size).toBe(map.nodes.length)
    }),
    { numRuns: 50 },
  )
})

it('left and right follow a link and nothing else', () => {
  fc.assert(
    fc.property(matters, (matter) => {
      const map = placeMap(foldMatter(matter, new Set()))
      const isJoined = (newer: string, older: string): boolean =>
        map.edges.some((edge) => edge.newer === newer && edge.older === older)
      for (const { key } of map.nodes) {
        const [right, left] = [signAfter(map, key, 'ArrowRight'), signAfter(map, key, 'ArrowLeft')]
        expect(right === null ? !map.edges.some(({ older }) => older === key) : isJoined(right, key)).toBe(
          true,
        )
        expect(left === null ? !map.edges.some(({ newer }) => newer === key) : isJoined(key, left)).toBe(true)
      }
    }),
    { numRuns: 50 },
  )
})
