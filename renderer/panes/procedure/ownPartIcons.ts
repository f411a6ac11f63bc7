/** Pictures of the parts of a procedure itself. */
import type { ProcedurePartKind } from '../../../shared/lab/model.ts'
import {
  AccessIcon,
  KindFixIcon,
  LabFileInIcon,
  PartDoneAlreadyIcon,
  PartExpectIcon,
  PartUndoIcon,
  PartWhyIcon,
  TimeIcon,
  type Icon,
} from '../../ui/icons.tsx'

export const ownPartIcons: Readonly<Partial<Record<ProcedurePartKind, Icon>>> = {
  purpose: PartWhyIcon,
  scope: PartExpectIcon,
  access: AccessIcon,
  supplies: KindFixIcon,
  time: TimeIcon,
  'back-up': LabFileInIcon,
  'closing checks': PartDoneAlreadyIcon,
  'how to undo': PartUndoIcon,
}
