/** Disks, back-ups, firmware, databases: data and equipment. Each is a notice, since nobody gets hurt. */
import type { ReadyCaution } from './ready-texts.ts'

const loss = {
  harm: { worst: 'loss of data, equipment or service', ifNotAvoided: 'could' },
  defersTo: null,
} as const

export const dataTexts: readonly ReadyCaution[] = [
  {
    ...loss,
    id: 'wipe-disk',
    title: 'Wiping a disk',
    caution: {
      signal: 'notice',
      hazard: 'The next command erases all that is on the named disk.',
      consequence: 'What was on it cannot be brought back.',
      avoidance:
        'Compare model, serial number and size with the disk that you mean (`lsblk -o NAME,SIZE,MODEL,SERIAL`), have a second person read them, and have a back-up that was read back.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['wipe', 'erase', 'disk', 'blkdiscard', 'dd', 'shred', 'partition', 'mkfs', 'format'],
  },
  {
    ...loss,
    id: 'wrong-device',
    title: 'Names of devices change',
    caution: {
      signal: 'notice',
      hazard: 'Names such as `/dev/sda` are given anew at each start and when a disk is plugged in.',
      consequence: 'The command can hit the wrong disk.',
      avoidance:
        'Look the name up right before, and use a name under `/dev/disk/by-id` where the command takes one.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['device', 'sda', 'disk', 'name', 'wrong', 'by-id'],
  },
  {
    ...loss,
    id: 'raid-rebuild',
    title: 'Rebuilding a RAID',
    caution: {
      signal: 'notice',
      hazard:
        'While the array rebuilds there is less redundancy or none, and every disk is read from end to end.',
      consequence: 'Another failing disk can cost all data, and pulling the wrong disk surely does.',
      avoidance:
        'Have a back-up that was read back before you start. Identify the failed disk by its serial number, not by its slot alone. Let the rebuild end before any other work.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['raid', 'rebuild', 'mdadm', 'array', 'degraded', 'resync', 'zfs'],
  },
  {
    ...loss,
    id: 'shrink-file-system',
    title: 'Shrinking a file system or a volume',
    caution: {
      signal: 'notice',
      hazard: 'A volume that is made smaller than the file system on it cuts the file system off.',
      consequence: 'Data at its end are lost, and it may not mount again.',
      avoidance:
        'Have a back-up that was read back. Shrink the file system first, then the volume, to a size that leaves room; check the file system before and after.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['shrink', 'resize', 'lvreduce', 'resize2fs', 'lvm', 'partition'],
  },
  {
    ...loss,
    id: 'delete-backups',
    title: 'Deleting back-ups',
    caution: {
      signal: 'notice',
      hazard: 'What is deleted here may be the only copy of some state.',
      consequence: 'A fault that is found later can no longer be undone.',
      avoidance:
        'List what would go before it goes, keep at least one copy in another place, and restore a file from that copy first.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['backup', 'back-up', 'prune', 'delete', 'retention', 'snapshot'],
  },
  {
    ...loss,
    id: 'overwrite-configuration',
    title: 'Overwriting a configuration',
    caution: {
      signal: 'notice',
      hazard: 'The command replaces a file that is in use.',
      consequence: 'The old settings are gone, and a service may not start again.',
      avoidance:
        'Copy the file beside itself first, with its owner and mode, and let the service check the new one before you restart it.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['config', 'configuration', 'overwrite', 'copy', 'etc'],
  },
  {
    ...loss,
    id: 'recursive-delete',
    title: 'Deleting a whole directory',
    caution: {
      signal: 'notice',
      hazard: 'The command deletes a directory with all that is in it, without asking.',
      consequence: 'With a slip in the path, or an empty variable, it deletes something else.',
      avoidance:
        'List the same path first, write it in full, and put no blank or variable in it that you have not looked at.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['rm', 'delete', 'recursive', 'directory', 'find'],
  },
  {
    ...loss,
    id: 'firmware-update',
    title: 'Updating firmware',
    caution: {
      signal: 'notice',
      hazard: 'The update rewrites the program that starts the device.',
      consequence: 'If power or the connection fails meanwhile, the device may never start again.',
      avoidance:
        'Compare the file with the model and its checksum. Use a UPS, a cable and no wireless link, do not restart it yourself, and know the maker’s way of recovery beforehand.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['firmware', 'flash', 'bios', 'uefi', 'update', 'power'],
  },
  {
    ...loss,
    id: 'boot-order',
    title: 'Changing the boot order or the boot loader',
    caution: {
      signal: 'notice',
      hazard: 'The next start depends on this setting.',
      consequence: 'The machine may not start, or may start an old system and write to it.',
      avoidance:
        'Note or photograph the present settings, have a rescue medium at hand that you have tried, and a screen and keyboard or a console.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['boot', 'bios', 'uefi', 'grub', 'order', 'loader', 'rescue'],
  },
  {
    ...loss,
    id: 'encryption-key',
    title: 'Keys and passphrases of encrypted disks',
    caution: {
      signal: 'notice',
      hazard: 'Without its key or passphrase an encrypted disk cannot be read by anyone.',
      consequence: 'A lost key, or a damaged header, means lost data.',
      avoidance:
        'Back up the header and try the passphrase before you change it. Keep a copy of the key in a safe place apart from the machine.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['luks', 'cryptsetup', 'encryption', 'key', 'passphrase', 'header'],
  },
  {
    ...loss,
    id: 'database-migration',
    title: 'Changing the form of a database',
    caution: {
      signal: 'notice',
      hazard: 'The step rewrites tables in place.',
      consequence:
        'After it, the older program may not read them, and an interruption can leave them half changed.',
      avoidance:
        'Stop what writes to it, dump the database, restore the dump elsewhere to prove it, and know how long the step takes.',
    },
    why: 'Data are at stake and nobody is hurt: notice, however great the loss.',
    words: ['database', 'migration', 'schema', 'upgrade', 'dump', 'sql'],
  },
]
