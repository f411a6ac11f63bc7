/** The page of keys against what rows and parts say of themselves to the system's aids. */
import { expect, it } from 'vitest'
import { procedureKeys } from '../../../../renderer/help/procedureKeys.ts'
import { keysOfPart, keysOfSection, keysOfStep } from '../../../../renderer/panes/procedure/rowKeys.ts'

/** As `aria-keyshortcuts` spells it. */
const spelt = (keys: string): string =>
  keys
    .replace('Ctrl', 'Control')
    .replace('↑', 'ArrowUp')
    .replace('↓', 'ArrowDown')
    .replace('→', 'ArrowRight')
    .replace('←', 'ArrowLeft')

const keysIn = (where: RegExp): string[] =>
  procedureKeys
    .filter((group) => where.test(group.where))
    .flatMap(({ lines }) => lines.flatMap(({ keys }) => keys.map(spelt)))

it.each([
  [
    /^On a step/,
    `${keysOfStep} ${keysOfSection}`,
    ['ArrowUp', 'ArrowDown', 'Home', 'End', 'Delete', 'Escape'],
  ],
  [/^On a part/, keysOfPart, ['Escape']],
])('names every key of rows and parts, and no other: %s', (where, told, untold) => {
  expect(new Set(keysIn(where))).toEqual(new Set([...told.split(' '), ...untold]))
})

it('says no key twice at one place', () => {
  for (const { lines } of procedureKeys) {
    const keys = lines.flatMap((one) => one.keys)
    expect(keys).toEqual([...new Set(keys)])
  }
})
