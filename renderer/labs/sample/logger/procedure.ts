/** How to move a root file system from a card to a disk, distilled from the journal. */
import { lines } from '../lines.ts'
import type { SampleProcedure } from '../format.ts'

export const procedure: SampleProcedure = {
  key: 'move-root',
  created: '2026-10-18T16:00:00.000+02:00',
  title: 'Move the root file system from a card to a disk',
  purpose: lines(
    'The machine starts from its card and runs from the disk. The old root stays as the way back.',
    '',
    'Made for a small board with one disk and the boot menu in `/boot/extlinux`. You need a root shell, a stick with 512 MB free, an hour, and a back-up of the readings. The folders `/mnt/stick` and `/mnt/new` exist.',
  ),
  own: [
    {
      kind: 'how to undo',
      moment: '2026-10-18T16:46:00.000+02:00',
      text: 'Start the machine with the entry `card`. The old root is as it was; the copy of the old boot menu is `/boot/extlinux/extlinux.conf.card`.',
    },
  ],
  steps: [
    {
      parts: [
        {
          kind: 'caution',
          moment: '2026-10-18T16:01:10.000+02:00',
          text: '**Warning:** Mains voltage and UPS batteries can kill.\n\n*To avoid it:* Shut the machine down and pull its plug before you open it. Local codes come first; fixed wiring is for licensed electricians.',
          carries: [
            {
              from: { source: 'house-rules' },
              words: 'Shut the machine down and pull its plug before you open it.',
            },
            {
              from: { source: 'house-rules' },
              words: lines('Mains voltage', '   and UPS batteries can kill.'),
              as: 'Mains voltage and UPS batteries can kill.',
            },
          ],
        },
        {
          kind: 'do',
          moment: '2026-10-18T16:02:20.000+02:00',
          text: 'Start the machine with the disk in it. Below, the disk is called `/dev/sda`; another machine may give it another name.',
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:03:30.000+02:00',
          text: lines(
            'Look whether something is on the disk.',
            '',
            '```sh',
            'sfdisk -l /dev/sda',
            'wipefs /dev/sda',
            '```',
          ),
          carries: [
            { from: { entry: 'a-look-disk' }, words: lines('sfdisk -l /dev/sda', 'wipefs /dev/sda') },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:04:40.000+02:00',
          text: lines(
            'The size of the new disk, and no partition table. `wipefs` prints nothing:',
            '',
            '```text',
            'Disk /dev/sda: 3 GiB, 3221225472 bytes, 6291456 sectors',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-look-disk-out' },
              words: 'Disk /dev/sda: 3 GiB, 3221225472 bytes, 6291456 sectors',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:05:50.000+02:00',
          text: 'IF `wipefs` prints a signature, stop. This is another disk, or it holds data that somebody may want.',
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:07:00.000+02:00',
          text: lines('Stop the logger.', '', '```sh', 'systemctl stop weather-logger', '```'),
          carries: [{ from: { entry: 'a-tar' }, words: 'systemctl stop weather-logger' }],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:07:30.000+02:00',
          text: '`systemctl is-active weather-logger` says `inactive`.',
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:08:10.000+02:00',
          text: 'A copy made during a write can hold half of a change.',
          carries: [
            {
              from: { source: 'logger-writes' },
              words: 'A copy made during a write can hold half of a change.',
            },
          ],
        },
      ],
    },
    {
      place: { directory: '/mnt/stick' },
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:09:20.000+02:00',
          text: lines(
            'Write an archive of the root to the stick.',
            '',
            '```sh',
            'mount /dev/sdb1 /mnt/stick',
            'cd /mnt/stick',
            'tar -C / --one-file-system --numeric-owner -czf weather-root.tar.gz --exclude=./var/log/journal --exclude=./tmp .',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-tar' },
              words:
                'tar -C / --one-file-system --numeric-owner -czf weather-root.tar.gz --exclude=./var/log/journal --exclude=./tmp .',
            },
            { from: { entry: 'a-copy-damaged' }, words: 'mount /dev/sdb1 /mnt/stick' },
            { from: { entry: 'a-recover' }, words: 'cd /mnt/stick' },
          ],
        },
        { kind: 'expect', moment: '2026-10-18T16:10:00.000+02:00', text: '`tar` prints nothing.' },
        {
          kind: 'why',
          moment: '2026-10-18T16:10:30.000+02:00',
          text: 'The journal was written while tar read it; so it is left out.',
          carries: [{ from: { entry: 'a-tar-problem' }, words: 'The journal was written while tar read it' }],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:11:40.000+02:00',
          text: lines(
            'Compare the archive with the root. The last two commands close the stick.',
            '',
            '```sh',
            'tar -C / -dzf weather-root.tar.gz',
            'echo $?',
            'cd',
            'umount /mnt/stick',
            '```',
          ),
          carries: [
            { from: { entry: 'a-tar-again' }, words: lines('tar -C / -dzf weather-root.tar.gz', 'echo $?') },
            { from: { entry: 'a-umount-fix' }, words: lines('cd', 'umount /mnt/stick') },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:12:50.000+02:00',
          text: lines('No line about a difference, and the exit code:', '', '```text', '0', '```'),
          carries: [
            {
              from: { entry: 'a-tar-again-out' },
              words: 'No difference, and the exit code:',
              as: 'No line about a difference, and the exit code:',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:14:00.000+02:00',
          text: 'IF tar says "Contents differ", find what still writes and stop it. Then write the archive again.',
          carries: [{ from: { entry: 'a-tar-compare-out' }, words: 'Contents differ' }],
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:15:10.000+02:00',
          text: 'Before you change a machine, make a copy that you have compared with the original.',
          carries: [
            {
              from: { source: 'house-rules' },
              words: lines(
                'Before you change a machine, make a copy that you have compared with the',
                '   original.',
              ),
              as: 'Before you change a machine, make a copy that you have compared with the original.',
            },
          ],
        },
      ],
    },
    {
      place: { directory: '/root' },
      parts: [
        {
          kind: 'caution',
          moment: '2026-10-18T16:16:20.000+02:00',
          text: '**Notice:** The next two commands destroy what is on the named disk.\n\n*To avoid it:* Read the size and the name once more. Leave the card alone.',
        },
        {
          kind: 'do',
          moment: '2026-10-18T16:17:30.000+02:00',
          text: lines(
            'Make one partition and one file system on the disk.',
            '',
            '```sh',
            "echo 'type=linux, name=weather-root' | sfdisk --label gpt /dev/sda",
            'mkfs.ext4 -L weather-root /dev/sda1',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-partition' },
              words: "echo 'type=linux, name=weather-root' | sfdisk --label gpt /dev/sda",
            },
            { from: { entry: 'a-mkfs' }, words: 'mkfs.ext4 -L weather-root /dev/sda1' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:18:40.000+02:00',
          text: lines(
            'The table has one partition, and `mkfs.ext4` ends with:',
            '',
            '```text',
            'Writing superblocks and filesystem accounting information: done',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-partition-out' },
              words: 'Created a new partition 1',
              as: 'The table has one partition',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'caution',
          moment: '2026-10-18T16:19:20.000+02:00',
          text: '**Notice:** `rsync --delete` removes from the target whatever the source does not have. A wrong target loses what is on it.',
        },
        {
          kind: 'do',
          moment: '2026-10-18T16:19:50.000+02:00',
          text: lines(
            'Copy the root to the new file system.',
            '',
            '```sh',
            'mount /dev/sda1 /mnt/new',
            'rsync -aHAXx --numeric-ids --delete --itemize-changes / /mnt/new/',
            '```',
          ),
          carries: [
            { from: { entry: 'a-first-copy' }, words: 'mount /dev/sda1 /mnt/new' },
            {
              from: { entry: 'a-full-second' },
              words: 'rsync -aHAXx --numeric-ids --delete --itemize-changes / /mnt/new/',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:21:00.000+02:00',
          text: 'A line for each thing that was copied, and no error at the end.',
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:22:10.000+02:00',
          text: 'IF a folder stands inside itself, a slash was missing. Run the command again as it stands here; `--delete` removes the wrong folder.',
          carries: [
            { from: { entry: 'a-nested-why' }, words: 'I left out the slash.', as: 'a slash was missing' },
            {
              from: { entry: 'a-full-second' },
              words: 'It removes the folder that should not be there.',
              as: '`--delete` removes the wrong folder',
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:23:20.000+02:00',
          text: 'Copy one file system only. Otherwise the copy walks into `/proc`, `/sys` and the disk that it is writing to.',
          carries: [
            {
              from: { entry: 'a-one-fs' },
              words:
                'Copy one file system only. Otherwise the copy walks into `/proc`, `/sys` and the disk that it is writing to.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:24:30.000+02:00',
          text: lines(
            'Compare the copy with the root by content.',
            '',
            '```sh',
            'rsync -aHAXx --numeric-ids --delete --checksum --dry-run --itemize-changes / /mnt/new/',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-equal' },
              words: 'rsync -aHAXx --numeric-ids --delete --checksum --dry-run --itemize-changes / /mnt/new/',
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:25:40.000+02:00',
          text: 'It prints nothing: the two are equal.',
          carries: [{ from: { entry: 'a-equal-seen' }, words: 'It prints nothing: the two are equal.' }],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:26:50.000+02:00',
          text: 'IF it prints lines about the journal only, go on. IF it names other files, copy again.',
          carries: [
            {
              from: { source: 'rsync-options' },
              words: 'Each line it prints is a difference.',
              as: 'IF it prints lines',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:28:00.000+02:00',
          text: lines(
            'Put the new name into the table of the new root. IF the copy of the table exists already, skip `cp`. The last command checks the table.',
            '',
            '```sh',
            'cp -a /mnt/new/etc/fstab /mnt/new/etc/fstab.card',
            'sed -i "/ \\/ /s/UUID=[^ ]*/UUID=$(blkid -s UUID -o value /dev/sda1)/" /mnt/new/etc/fstab',
            'findmnt --verify --tab-file /mnt/new/etc/fstab',
            '```',
          ),
          carries: [
            { from: { entry: 'a-fstab-copy' }, words: 'cp -a /mnt/new/etc/fstab /mnt/new/etc/fstab.card' },
            {
              from: { entry: 'a-fstab-right' },
              words:
                "sed -i '/ \\/ /s/UUID=[^ ]*/UUID=4a278fad-2f35-4ced-a200-82462f163d21/' /mnt/new/etc/fstab",
              as: 'sed -i "/ \\/ /s/UUID=[^ ]*/UUID=$(blkid -s UUID -o value /dev/sda1)/" /mnt/new/etc/fstab',
            },
            { from: { entry: 'a-verify-right' }, words: 'findmnt --verify --tab-file /mnt/new/etc/fstab' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:29:10.000+02:00',
          text: lines('```text', 'Success, no errors or warnings detected', '```'),
          carries: [
            { from: { entry: 'a-verify-right-out' }, words: 'Success, no errors or warnings detected' },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:30:20.000+02:00',
          text: 'IF it says "unreachable on boot required source", compare with `blkid /dev/sda1`. Do not take the `uuid=` that `sfdisk -d` prints.',
          carries: [
            { from: { entry: 'a-verify-wrong-out' }, words: 'unreachable on boot required source' },
            { from: { entry: 'a-uuid-why' }, words: 'the `uuid=` that `sfdisk -d` prints' },
          ],
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:31:30.000+02:00',
          text: 'A wrong identifier here means that the machine waits at boot for a disk that does not exist.',
          carries: [
            {
              from: { source: 'root-move' },
              words:
                'A wrong identifier here means that the machine waits at boot for a disk that does not exist.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'caution',
          moment: '2026-10-18T16:32:40.000+02:00',
          text: '**Notice:** A power cut during a write to the boot files can leave nothing to start from. Keep `/boot` open for writing only in this step.',
          carries: [
            {
              from: { source: 'boot-menu' },
              words: lines(
                'A power cut during a write',
                'to the boot files is the one fault that leaves nothing to start from.',
              ),
              as: 'A power cut during a write to the boot files can leave nothing to start from.',
            },
          ],
        },
        {
          kind: 'do',
          moment: '2026-10-18T16:33:50.000+02:00',
          text: lines(
            'Write the boot menu with both roots. Under `disk` stands the UUID of `/dev/sda1`, under `card` that of the card. IF the copy of the menu exists already, skip `cp`.',
            '',
            '```sh',
            'mount -o remount,rw /boot',
            'cp -a /boot/extlinux/extlinux.conf /boot/extlinux/extlinux.conf.card',
            "cat > /boot/extlinux/extlinux.conf <<'END'",
            'default disk',
            'timeout 30',
            '',
            'label disk',
            '  linux /vmlinuz',
            '  initrd /initrd.img',
            '  append root=UUID=4a278fad-2f35-4ced-a200-82462f163d21 ro rootwait quiet',
            '',
            'label card',
            '  linux /vmlinuz',
            '  initrd /initrd.img',
            '  append root=UUID=4fdc6495-3fb8-466d-a88f-68e8e279d105 ro rootwait quiet',
            'END',
            'grep -c "root=UUID=$(blkid -s UUID -o value /dev/sda1)" /boot/extlinux/extlinux.conf',
            'mount -o remount,ro /boot',
            '```',
          ),
          carries: [
            {
              from: { entry: 'a-boot-open' },
              words: lines(
                'mount -o remount,rw /boot',
                'cp -a /boot/extlinux/extlinux.conf /boot/extlinux/extlinux.conf.card',
              ),
            },
            {
              from: { entry: 'a-boot-menu' },
              words: lines(
                "cat > /boot/extlinux/extlinux.conf <<'END'",
                'default disk',
                'timeout 30',
                '',
                'label disk',
                '  linux /vmlinuz',
                '  initrd /initrd.img',
                '  append root=UUID=4a278fad-2f35-4ced-a200-82462f163d21 ro rootwait quiet',
                '',
                'label card',
                '  linux /vmlinuz',
                '  initrd /initrd.img',
                '  append root=UUID=4fdc6495-3fb8-466d-a88f-68e8e279d105 ro rootwait quiet',
                'END',
              ),
            },
            {
              from: { entry: 'a-boot-check' },
              words: 'grep -c "root=UUID=$(blkid -s UUID -o value /dev/sda1)" /boot/extlinux/extlinux.conf',
            },
            { from: { entry: 'a-boot-close' }, words: 'mount -o remount,ro /boot' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:35:00.000+02:00',
          text: lines('The count of lines that name the new root:', '', '```text', '1', '```'),
          carries: [
            {
              from: { entry: 'a-boot-check' },
              words: 'Does it name the new file system?',
              as: 'The count of lines that name the new root',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:36:10.000+02:00',
          text: 'IF the count is 0, bring the old menu back with `cp -a /boot/extlinux/extlinux.conf.card /boot/extlinux/extlinux.conf`. Then write it again.',
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:37:20.000+02:00',
          text: 'Then a bad disk costs a key press at the console and no visit with a screwdriver.',
          carries: [
            {
              from: { entry: 'a-two-roots' },
              words: lines(
                'Then a bad disk',
                '> costs a key press at the console and no visit with a screwdriver.',
              ),
              as: 'Then a bad disk costs a key press at the console and no visit with a screwdriver.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:38:30.000+02:00',
          text: lines(
            'Restart the machine without the stick. The commands check the new file system and shut the machine down.',
            '',
            '```sh',
            'umount /mnt/new',
            'e2fsck -f /dev/sda1',
            'systemctl poweroff',
            '```',
          ),
          carries: [
            { from: { entry: 'a-boot-close' }, words: 'umount /mnt/new' },
            { from: { entry: 'a-fsck' }, words: 'e2fsck -f /dev/sda1' },
            { from: { entry: 'a-poweroff' }, words: 'systemctl poweroff' },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:39:00.000+02:00',
          text: '`e2fsck` names no error, and the machine comes up again.',
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:39:40.000+02:00',
          text: 'IF the machine does not come up, start it with the entry `card`. The old root is as it was.',
          carries: [
            {
              from: { source: 'root-move' },
              words: 'Leave the old root as it is. It is the way back if the disk does not start.',
              as: 'The old root is as it was.',
            },
          ],
        },
      ],
    },
    {
      parts: [
        {
          kind: 'do',
          moment: '2026-10-18T16:40:50.000+02:00',
          text: lines(
            'See from where it runs. The last command counts the readings; run it twice, ten minutes apart.',
            '',
            '```sh',
            'findmnt -no SOURCE,UUID /',
            'systemctl is-active weather-logger',
            "sqlite3 /var/lib/weather/readings.db 'PRAGMA integrity_check' 'SELECT count(*) FROM reading'",
            '```',
          ),
          carries: [
            { from: { entry: 'a-from-disk' }, words: 'findmnt -no SOURCE,UUID /' },
            { from: { entry: 'a-from-disk' }, words: 'systemctl is-active weather-logger' },
            {
              from: { entry: 'a-count-disk' },
              words:
                "sqlite3 /var/lib/weather/readings.db 'PRAGMA integrity_check' 'SELECT count(*) FROM reading'",
            },
          ],
        },
        {
          kind: 'expect',
          moment: '2026-10-18T16:42:00.000+02:00',
          text: '`/dev/sda1` with its UUID, `active`, `ok`, and a count that grows by one a minute.',
          carries: [
            {
              from: { entry: 'a-runs' },
              words: 'Nine minutes, nine readings',
              as: 'a count that grows by one a minute',
            },
          ],
        },
        {
          kind: 'if it fails',
          moment: '2026-10-18T16:43:10.000+02:00',
          text: 'IF the count stands still, look at the owner of the readings and of their folder. The user `weather` must be able to write both.',
          carries: [
            {
              from: { source: 'logger-writes' },
              words: 'That user must be able to write the database and the folder around it.',
              as: 'The user `weather` must be able to write both.',
            },
          ],
        },
        {
          kind: 'why',
          moment: '2026-10-18T16:44:20.000+02:00',
          text: 'The nightly copy on the same disk replaces no back-up. The stick belongs in another house.',
          carries: [
            {
              from: { entry: 'a-same-disk' },
              words: 'So the stick stays in the other house',
              as: 'The stick belongs in another house.',
            },
          ],
        },
      ],
    },
  ],
  silences: [
    {
      moment: '2026-10-18T16:47:00.000+02:00',
      rule: 'literal value',
      step: 2,
      words: '/dev/sda',
      reason: 'The name is read off in this very step, and once more before anything is destroyed.',
    },
  ],
  leftOut: [
    {
      moment: '2026-10-18T16:48:00.000+02:00',
      reason: 'Saving the readings was a job of its own. The move does not need it.',
      commands: [
        {
          entry: 'a-copy-damaged',
          words: ['cp -a /var/lib/weather/readings.db /mnt/stick/readings-damaged.db'],
        },
        {
          entry: 'a-dump',
          words: [
            'sqlite3 readings-damaged.db .dump > salvage.sql',
            'sqlite3 readings-salvaged.db < salvage.sql',
          ],
        },
        { entry: 'a-dump-count', words: ["sqlite3 readings-salvaged.db 'SELECT count(*) FROM reading'"] },
        {
          entry: 'a-commit',
          words: [
            "sed -i 's/^ROLLBACK;.*/COMMIT;/' salvage.sql",
            'sqlite3 readings-salvaged.db < salvage.sql',
          ],
        },
        {
          entry: 'a-salvaged',
          words: ["sqlite3 readings-salvaged.db 'PRAGMA integrity_check' 'SELECT count(*) FROM reading'"],
        },
        { entry: 'a-restore', words: ['cp readings-salvaged.db /var/lib/weather/readings.db'] },
      ],
    },
  ],
}
