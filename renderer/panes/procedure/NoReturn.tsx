/** The sign that stands before a point of no return. */
import { DangerIcon } from '../../ui/icons.tsx'

/** A rule across the page: what lies behind it cannot be taken back. */
export function NoReturn() {
  return (
    <div className="st-row-above st-no-return">
      <DangerIcon />
      <span>
        <strong>Point of no return.</strong> What is done from here on cannot be taken back.
      </span>
    </div>
  )
}
