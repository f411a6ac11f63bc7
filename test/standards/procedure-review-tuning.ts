/**
 * Labelled sentences after public handbooks, in our own words. This half may be used to tune the rules by. `memory` marks a handbook whose section was not at hand and is named from memory.
 */
import type { LabelledSentence } from './procedure-review-frozen.ts'
import type { SentenceRule } from './procedure-review-labels.ts'

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
  ['do', 'Disconnect the battery and lift it out.', ['one action'], doe('one action for each step')],
  ['do', 'Lift the battery out.', [], doe('one action for each step')],
  ['do', 'Turn the key, then press the red button.', ['one action'], doe('one action for each step')],
  ['do', 'Load the new table. Restart the logger.', ['one action'], doe('one action for each step')],
  ['do', 'Pour the acid and the water into separate cans.', [], doe('one action for each step')],
  ['do', 'Draw and label the three circuits of the rack.', [], modular],
  ['do', 'Set the time of the camera and of the mount.', [], modular],
  ['do', 'Make a folder, copy the key into it and lock it.', ['one action'], modular],
  ['do', 'Compare the archive with the root. Then close the stick.', ['one action'], modular],
  ['do', 'Read the label on the disk. It names the size.', [], modular],
  ['do', 'Loosen the clamp and turn the mount to the north.', ['one action'], nureg('simple steps')],
  ['do', 'Send the picture and the table to the desk.', [], nureg('simple steps')],
  ['do', 'Press the button and hold it for five seconds.', [], nureg('simple steps')],
  ['do', 'The lamp must be switched off by the keeper.', ['plain verb'], plain('Use active voice')],
  ['do', 'We now stop the logger.', ['plain verb'], modular],
  ['do', 'Stopping of the camera.', ['plain verb'], modular],
  ['do', 'Effectuate the change of the key.', ['plain verb'], plain('Use simple words')],
  ['do', 'Initiate the copy of the root.', ['plain verb'], plain('Use simple words')],
  ['do', 'Leverage the second network for the pictures.', ['plain verb'], plain('Use simple words')],
  ['do', 'Next, the cable is pulled out.', ['plain verb'], plain('Use active voice')],
  ['do', 'Next, pull the cable out.', [], google('Procedures')],
  ['do', 'Installation of the card reader.', ['plain verb'], modular],
  ['do', 'Please close the shutter.', ['plain verb'], google('Please')],
  ['do', 'On each client, name the server.', [], modular],
  ['do', 'Now turn the dome by hand.', [], modular],
  ['do', 'This step opens the dome.', ['plain verb'], plain('Use active voice')],
  ['do', 'Fit the disk.', [], modular],
  ['do', 'It is recommended to use the left socket.', ['plain verb'], plain('Use active voice')],
  ['do', 'To see the table, type its name.', [], google('Procedures')],
  [
    'do',
    'Users should put the stick into the drawer.',
    ['plain verb'],
    plain('Use must to indicate requirements'),
  ],
  ['do', 'Ensure adequate air flow.', ['vague words'], doe('vague terms')],
  ['do', 'Make sure the clock is correct.', ['vague words'], doe('specific criteria')],
  ['do', 'Make sure that `chronyc tracking` says less than 0.1 seconds.', [], doe('specific criteria')],
  ['do', 'Check the log.', ['vague words'], doe('specific criteria')],
  ['do', 'Check that no line holds the word "error".', [], doe('specific criteria')],
  ['do', 'Fill the tank if needed.', ['vague words', 'condition first'], doe('vague terms')],
  ['do', 'Fill the tank to the upper mark.', [], doe('vague terms')],
  ['do', 'Remove some of the old files.', ['vague words'], nureg('vague terms')],
  ['do', 'Remove the files that are older than 30 days.', [], nureg('vague terms')],
  ['do', 'Use a suitable cable.', ['vague words'], nureg('vague terms')],
  ['do', 'Wait until the pressure is reasonable.', ['vague words'], nureg('vague terms')],
  ['do', 'Wipe the lens gently.', ['vague words'], nureg('vague terms')],
  ['do', 'Verify that the seal has the number 12.', [], doe('specific criteria')],
  ['do', 'Confirm the settings.', ['vague words'], doe('specific criteria')],
  ['do', 'Copy the pictures regularly.', ['vague words'], nureg('vague terms')],
  ['do', 'Copy the pictures at noon each day.', [], nureg('vague terms')],
  [
    'do',
    'Turn off the heater if the room is warmer than 25 degrees.',
    ['condition first'],
    doe('conditional steps'),
  ],
  ['do', 'If the room is warmer than 25 degrees, turn off the heater.', [], doe('conditional steps')],
  ['do', 'Close the valve when the tank is full.', ['condition first'], doe('conditional steps')],
  ['do', 'When the tank is full, close the valve.', [], doe('conditional steps')],
  ['do', 'Use the side door unless it is locked.', ['condition first'], nureg('conditional statements')],
  ['do', 'Unless the side door is locked, use it.', [], nureg('conditional statements')],
  ['do', 'Ask the keeper whether the gate is shut.', [], nureg('conditional statements')],
  ['do', 'Stay until the copy ends.', [], nureg('conditional statements')],
  ['if it fails', 'Go back to the start if the lamp blinks.', ['condition first'], doe('conditional steps')],
  ['if it fails', 'IF the lamp blinks, go back to the start.', [], doe('conditional steps')],
  ['if it fails', 'Read the last line of the log.', [], modular],
  [
    'if it fails',
    'Take the spare key as long as the lock is broken.',
    ['condition first'],
    nureg('conditional statements'),
  ],
  [
    'caution',
    '**Warning:** The rail is live. Pull the plug.',
    ['caution with action'],
    doe('warnings and cautions'),
  ],
  ['caution', '**Warning:** The rail is live and can kill.', [], doe('warnings and cautions')],
  ['caution', '**Notice:** The next command wipes the stick.', [], nureg('cautions and notes')],
  [
    'caution',
    '**Notice:** Type `wipefs -a /dev/sdb` with care.',
    ['caution with action'],
    nureg('cautions and notes'),
  ],
  ['caution', '**Caution:** The box weighs 30 kg.\n\n*To avoid it:* Lift it with two people.', [], ansi],
  ['caution', '**Notice:** Static kills the card. Never touch its contacts.', [], ansi],
  [
    'caution',
    '**Danger:** The tank is under pressure. Open the drain valve first.',
    ['caution with action'],
    doe('warnings and cautions'),
  ],
  [
    'caution',
    '**Notice:** A reboot cuts the link. Restart the machine at night.',
    ['caution with action'],
    doe('warnings and cautions'),
  ],
  [
    'do',
    'Carry the tripod, which stands behind the second door of the store on the ground floor next to the old telescope and its box, up to the platform.',
    ['long sentence'],
    govuk,
  ],
  ['do', 'Carry the tripod up to the platform.', [], govuk],
  [
    'do',
    'Give the name of the machine that you made in the first step and that stands on the label at its back to the person who keeps the list of names.',
    ['long sentence'],
    plain('Write short sentences'),
  ],
  ['do', 'Read the value of the XQR.', ['undefined abbreviation'], google('Abbreviations')],
  ['do', 'Read the sky quality meter (SQM).', [], google('Abbreviations')],
  ['do', 'Open the DNS page of the router.', [], google('Abbreviations')],
  ['do', 'Bring the BDRM key to the platform.', ['undefined abbreviation'], google('Abbreviations')],
  ['do', 'Set the TLS version to 1.3.', [], google('Abbreviations')],
  ['do', 'Note the FWHM of ten stars.', ['undefined abbreviation'], google('Abbreviations')],
]

export const tuningSentences: readonly LabelledSentence[] = rows.map(([part, text, breaks, source]) => ({
  part,
  text,
  breaks,
  ...source,
}))
