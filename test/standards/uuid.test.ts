import { describe, expect, it } from 'vitest'
import { createIdMaker, idFromBytes, isId, millisecondsOfId, type LabId } from '../../shared/lab/ids.ts'

/** RFC 9562, Appendix A.6: "Example of a UUIDv7 Value". */
const VECTOR = '017F22E2-79B0-7CC3-98C4-DC0C0C07398F'
const VECTOR_MS = 1645557742000

const bytesOf = (uuid: string): Uint8Array =>
  Uint8Array.from(uuid.replaceAll('-', '').match(/../g)!, (pair) => Number.parseInt(pair, 16))

describe('ids against RFC 9562', () => {
  it('read the published vector as the millisecond that the RFC names', () => {
    const id = idFromBytes<LabId>(bytesOf(VECTOR))
    expect(id).toBe(VECTOR.toLowerCase())
    expect(isId(id)).toBe(true)
    expect(millisecondsOfId(id)).toBe(VECTOR_MS)
  })

  it('lay out the millisecond, version and variant as the vector does', () => {
    const wanted = bytesOf(VECTOR)
    const made = bytesOf(
      createIdMaker(
        () => VECTOR_MS,
        () => wanted,
      ).make<LabId>(),
    )
    expect([...made.slice(0, 6)]).toEqual([...wanted.slice(0, 6)])
    expect(made[6]! >> 4).toBe(7)
    expect(made[8]! >> 6).toBe(0b10)
    expect([...made.slice(11)]).toEqual([...wanted.slice(11)])
  })

  it('take no other version, variant, case or shape for one', () => {
    const others = [
      // RFC 9562, Appendix A.1 (version 1), A.2 (3), A.3 (4), A.4 (5), A.5 (6), §5.9 and §5.10.
      'c232ab00-9414-11ec-b3c8-9f6bdeced846',
      '5df41881-3aed-3515-88a7-2f4a814cf09e',
      '919108f7-52d1-4320-9bac-f847db4148a8',
      '2ed6657d-e927-568b-95e1-2665a8aea6a2',
      '1ec9414c-232a-6b00-b3c8-9f6bdeced846',
      '00000000-0000-0000-0000-000000000000',
      'ffffffff-ffff-ffff-ffff-ffffffffffff',
      '017f22e2-79b0-7cc3-18c4-dc0c0c07398f',
      VECTOR,
      VECTOR.toLowerCase().replaceAll('-', ''),
      ` ${VECTOR.toLowerCase()}`,
      `${VECTOR.toLowerCase()}\n`,
    ]
    for (const other of [...others, 7, null, undefined, [VECTOR.toLowerCase()]])
      expect(isId(other)).toBe(false)
  })
})
