/** Labs as a person makes and names them. */
import type { Surroundings } from '../../shared/lab/acts.ts'
import type { LabId } from '../../shared/lab/ids.ts'
import type { Lab } from '../../shared/lab/model.ts'
import type { LabRegistry } from '../db/labs.ts'

/** Makes an empty lab of that name. Its database comes into being when it is opened. */
export async function beginLab(registry: LabRegistry, around: Surroundings, name: string): Promise<Lab> {
  const lab: Lab = {
    id: around.ids.make<LabId>(),
    name: name.trim() || 'Untitled lab',
    created: around.clock.now(),
  }
  await registry.keep(lab)
  return lab
}

export async function renameLab(registry: LabRegistry, lab: Lab, name: string): Promise<Lab> {
  const renamed = { ...lab, name: name.trim() || lab.name }
  await registry.keep(renamed)
  return renamed
}
