/** The keys of the procedure, as tables. */
import { Kbd } from '../ui/index.ts'
import { procedureKeys } from './procedureKeys.ts'

export function ProcedureKeys() {
  return procedureKeys.map(({ where, lines }) => (
    <table key={where} className="st-help-table">
      <caption>{where}</caption>
      <tbody>
        {lines.map(({ keys, does }) => (
          <tr key={does}>
            <th scope="row">
              <span className="st-help-chords">
                {keys.map((one) => (
                  <Kbd key={one} keys={one} />
                ))}
              </span>
            </th>
            <td>{does}</td>
          </tr>
        ))}
      </tbody>
    </table>
  ))
}
