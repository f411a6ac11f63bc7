/**
 * Labelled sentences after public handbooks, in our own words. This half was written before the rules were, and is not to be
 * changed to suit them. `memory` marks a handbook whose section was not at hand and is named from memory.
 */
import type { SentenceRule } from './procedure-review-labels.ts'

export interface LabelledSentence {
  readonly text: string
  /** The part that it stands in, as the only sentence. */
  readonly part: 'do' | 'caution' | 'if it fails'
  /** All rules that it breaks; none for a good sentence. */
  readonly breaks: readonly SentenceRule[]
  readonly after: string
  readonly memory: boolean
}

const doe = (section: string) => ({ after: `DOE-STD-1029-92, ${section}`, memory: true })
const nureg = (section: string) => ({ after: `NUREG-0899, ${section}`, memory: true })
const plain = (page: string) => ({ after: `plainlanguage.gov, ${page}`, memory: false })
const modular = { after: 'Red Hat modular documentation, Procedure modules', memory: false }
const ansi = { after: 'ANSI Z535.6, messages of safety in collateral materials', memory: true }
const govuk = { after: 'GOV.UK content design, Sentence length', memory: true }
const google = (section: string) => ({
  after: `Google developer documentation style guide, ${section}`,
  memory: true,
})

type Row = readonly [
  LabelledSentence['part'],
  string,
  readonly SentenceRule[],
  { after: string; memory: boolean },
]

const rows: readonly Row[] = [
  ['do', 'Stop the service and remove its package.', ['one action'], doe('one action for each step')],
  ['do', 'Stop the service.', [], doe('one action for each step')],
  [
    'do',
    'Open the valve, close the drain and start the pump.',
    ['one action'],
    doe('one action for each step'),
  ],
  ['do', 'Unmount the stick. Then carry it to the dome.', ['one action'], doe('one action for each step')],
  ['do', 'Put the left and the right cable into the same socket.', [], doe('one action for each step')],
  ['do', 'Remove the cover and the four screws under it.', [], doe('one action for each step')],
  ['do', 'Copy the file, then compare the two copies.', ['one action'], doe('one action for each step')],
  ['do', 'Write the archive to the stick. It takes ten minutes.', [], modular],
  ['do', 'Restart the logger before you load the new table.', [], modular],
  ['do', 'Shut down the machine, pull the plug and wait two minutes.', ['one action'], nureg('simple steps')],
  ['do', 'Mount the disk and copy the readings to it.', ['one action'], modular],
  ['do', 'Search and replace the old name in the table.', [], modular],
  ['do', 'Pull the drawer out until it clicks.', [], nureg('simple steps')],
  ['do', 'The service should be restarted.', ['plain verb'], plain('Use active voice')],
  ['do', 'You should now start the logger.', ['plain verb'], modular],
  ['do', 'Restarting the proxy.', ['plain verb'], modular],
  ['do', 'Utilize the second socket for the camera.', ['plain verb'], plain('Use simple words')],
  ['do', 'Commence the copy of the root.', ['plain verb'], plain('Use simple words')],
  ['do', 'It is necessary to remove the old key.', ['plain verb'], plain('Use active voice')],
  ['do', 'The drain valve is opened.', ['plain verb'], plain('Use active voice')],
  ['do', 'Configuration of the switch is done with a browser.', ['plain verb'], modular],
  ['do', 'Please turn the key.', ['plain verb'], google('Please')],
  ['do', 'On the proxy, reload the configuration.', [], modular],
  ['do', 'Facilitate the change of the disks.', ['plain verb'], plain('Use simple words')],
  ['do', 'Label both ends of the cable.', [], modular],
  ['do', 'From the desk, ask the proxy for its certificate.', [], modular],
  ['do', 'A new key must be made by the operator.', ['plain verb'], plain('Use active voice')],
  ['do', 'Terminate the logger.', ['plain verb'], plain('Use simple words')],
  ['do', 'Sign the request with the key of the authority.', [], modular],
  ['do', 'There is a lever that you have to turn.', ['plain verb'], plain('Use active voice')],
  ['do', 'Ensure the pump works properly.', ['vague words'], doe('specific criteria')],
  ['do', 'Check the oil.', ['vague words'], doe('specific criteria')],
  ['do', 'Check that the gauge reads between 3 and 5 bar.', [], doe('specific criteria')],
  ['do', 'Tighten the screws as necessary.', ['vague words'], doe('vague terms')],
  ['do', 'Wait a while.', ['vague words'], doe('vague terms')],
  ['do', 'Wait ten minutes.', [], doe('vague terms')],
  ['do', 'Make sure that the lamp is green.', [], doe('specific criteria')],
  ['do', 'Verify the installation.', ['vague words'], doe('specific criteria')],
  ['do', 'Give the volume enough space.', ['vague words'], doe('vague terms')],
  ['do', 'Give the volume 20 GB.', [], doe('vague terms')],
  ['do', 'Repeat the test several times.', ['vague words'], nureg('vague terms')],
  ['do', 'Set the clock to the appropriate zone.', ['vague words'], nureg('vague terms')],
  ['do', 'Delete the old logs, pictures, etc.', ['vague words'], nureg('vague terms')],
  ['do', 'Turn the ring slowly and carefully.', ['vague words'], nureg('vague terms')],
  ['do', 'Confirm that `df` shows less than 80 % for the root.', [], doe('specific criteria')],
  ['do', 'Periodically look at the log.', ['vague words'], nureg('vague terms')],
  ['do', 'Restart the service if the file has changed.', ['condition first'], doe('conditional steps')],
  ['do', 'IF the file has changed, restart the service.', [], doe('conditional steps')],
  ['do', 'Replace the fuse when the lamp stays dark.', ['condition first'], doe('conditional steps')],
  ['do', 'WHEN the lamp is green, open the shutter.', [], doe('conditional steps')],
  ['do', 'Skip this step unless you have two disks.', ['condition first'], nureg('conditional statements')],
  ['do', 'Wait until the lamp goes out.', [], nureg('conditional statements')],
  ['do', 'Close the dome once the rain begins.', ['condition first'], nureg('conditional statements')],
  ['do', 'Find out whether the door is locked.', [], nureg('conditional statements')],
  [
    'if it fails',
    'Call the keeper in case the alarm sounds.',
    ['condition first'],
    nureg('conditional statements'),
  ],
  ['if it fails', 'IF the count is 0, write the menu again.', [], doe('conditional steps')],
  [
    'if it fails',
    'Take the other disk if this one makes a noise.',
    ['condition first'],
    doe('conditional steps'),
  ],
  ['if it fails', 'If no lamp is on, look at the fuse.', [], google('Conditions before instructions')],
  [
    'caution',
    '**Warning:** The lid is hot. Switch off the heater.',
    ['caution with action'],
    doe('warnings and cautions'),
  ],
  ['caution', '**Warning:** The lid is hot and can burn you.', [], doe('warnings and cautions')],
  ['caution', '**Notice:** The command deletes the old readings.', [], nureg('cautions and notes')],
  [
    'caution',
    '**Notice:** Run `mkfs.ext4 /dev/sda1` to clear the disk.',
    ['caution with action'],
    nureg('cautions and notes'),
  ],
  [
    'caution',
    '**Danger:** The bus bar kills. Disconnect the batteries.',
    ['caution with action'],
    nureg('cautions and notes'),
  ],
  ['caution', '**Caution:** Sharp edges can cut.\n\n*To avoid it:* Wear gloves.', [], ansi],
  ['caution', '**Notice:** A wrong name loses the disk. Do not go on in doubt.', [], ansi],
  [
    'caution',
    '**Notice:** Loss of data. Copy the table, then stop the service.',
    ['caution with action'],
    doe('warnings and cautions'),
  ],
  [
    'do',
    'Take the cable that leads from the second port of the switch in the lower rack to the first port of the weather logger on the mast out of its holder.',
    ['long sentence'],
    govuk,
  ],
  ['do', 'Take the cable out of its holder.', [], govuk],
  [
    'do',
    'Write the name of the disk, its size, its serial number, the date on which it was bought and the name of the shop that sold it to us on the label.',
    ['long sentence'],
    plain('Write short sentences'),
  ],
  ['do', 'Put the value into the MQX register.', ['undefined abbreviation'], google('Abbreviations')],
  ['do', 'Reset the motor control unit (MCU) of the dome.', [], google('Abbreviations')],
  ['do', 'Connect the RDAU to the mast.', ['undefined abbreviation'], google('Abbreviations')],
  ['do', 'Write the IP address on the label.', [], google('Abbreviations')],
  ['do', 'Charge the UPS for eight hours.', [], google('Abbreviations')],
  ['do', 'Send the OBSLOG to the PCT.', ['undefined abbreviation'], google('Abbreviations')],
]

export const frozenSentences: readonly LabelledSentence[] = rows.map(([part, text, breaks, source]) => ({
  part,
  text,
  breaks,
  ...source,
}))
