import { expect, test } from 'vitest'
import {
  datedWords,
  dayAndTimeOf,
  shortAddress,
  titleOf,
} from '../../../../../renderer/panes/sources/rows.ts'
import type { Moment } from '../../../../../shared/lab/moment.ts'

test('a moment is shown by the calendar and clock of where it was written', () => {
  expect(dayAndTimeOf('2026-01-05T23:07:00.000-09:30' as Moment)).toBe('5 Jan 2026, 23:07')
})

test('an address is shortened by its scheme and a last slash only', () => {
  expect(shortAddress('https://docs.example.org/')).toBe('docs.example.org')
  expect(shortAddress('http://192.0.2.7:8080/a/?b=https://c/')).toBe('192.0.2.7:8080/a/?b=https://c')
})

test('a source without a title is called by its address', () => {
  expect(titleOf({ title: ' ', address: 'https://docs.example.org/x' })).toBe('docs.example.org/x')
  expect(titleOf({ title: '', address: null })).toBe('Untitled source')
})

test('the date of a document is said as exactly as it is stated', () => {
  expect(['2024', '2024-05', '2024-05-07', '2024-05-07T10:00', 'in May'].map(datedWords)).toEqual([
    '2024',
    'May 2024',
    '7 May 2024',
    '7 May 2024',
    'in May',
  ])
})
