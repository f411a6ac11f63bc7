/** Names that mdoc(7) has set words for: standards, libraries, systems. */

const toMap = (table: string): ReadonlyMap<string, string> =>
  new Map(
    table
      .trim()
      .split('\n')
      .map((line) => /^\s*(\S+) (.*)$/u.exec(line)!.slice(1) as [string, string]),
  )

/** Names of standards that `.St` takes. */
const standards = toMap(`
  ansiC ANSI X3.159-1989 (“ANSI C89”)
  ansiC-89 ANSI X3.159-1989 (“ANSI C89”)
  ieee1275-94 IEEE Std 1275-1994 (“Open Firmware”)
  ieee754 IEEE Std 754-1985
  iso8601 ISO 8601
  iso8802-3 ISO/IEC 8802-3:1989
  iso9945-1-90 ISO/IEC 9945-1:1990 (“POSIX.1”)
  iso9945-1-96 ISO/IEC 9945-1:1996 (“POSIX.1”)
  iso9945-2-93 ISO/IEC 9945-2:1993 (“POSIX.2”)
  isoC ISO/IEC 9899:1990 (“ISO C90”)
  isoC-2011 ISO/IEC 9899:2011 (“ISO C11”)
  isoC-90 ISO/IEC 9899:1990 (“ISO C90”)
  isoC-99 ISO/IEC 9899:1999 (“ISO C99”)
  isoC-amd1 ISO/IEC 9899/AMD1:1995 (“ISO C90, Amendment 1”)
  isoC-tcor1 ISO/IEC 9899/TCOR1:1994 (“ISO C90, Technical Corrigendum 1”)
  isoC-tcor2 ISO/IEC 9899/TCOR2:1995 (“ISO C90, Technical Corrigendum 2”)
  p1003.1 IEEE Std 1003.1 (“POSIX.1”)
  p1003.1-2001 IEEE Std 1003.1-2001 (“POSIX.1”)
  p1003.1-2004 IEEE Std 1003.1-2004 (“POSIX.1”)
  p1003.1-2008 IEEE Std 1003.1-2008 (“POSIX.1”)
  p1003.1-88 IEEE Std 1003.1-1988 (“POSIX.1”)
  p1003.1-90 ISO/IEC 9945-1:1990 (“POSIX.1”)
  p1003.1-96 ISO/IEC 9945-1:1996 (“POSIX.1”)
  p1003.1b IEEE Std 1003.1b (“POSIX.1”)
  p1003.1b-93 IEEE Std 1003.1b-1993 (“POSIX.1”)
  p1003.1c-95 IEEE Std 1003.1c-1995 (“POSIX.1”)
  p1003.1g-2000 IEEE Std 1003.1g-2000 (“POSIX.1”)
  p1003.1i-95 IEEE Std 1003.1i-1995 (“POSIX.1”)
  p1003.2 IEEE Std 1003.2 (“POSIX.2”)
  p1003.2-92 IEEE Std 1003.2-1992 (“POSIX.2”)
  p1003.2a-92 IEEE Std 1003.2a-1992 (“POSIX.2”)
  susv2 Version 2 of the Single UNIX Specification (“SUSv2”)
  susv3 Version 3 of the Single UNIX Specification (“SUSv3”)
  svid4 System V Interface Definition, Fourth Edition (“SVID4”)
  xbd5 X/Open Base Definitions Issue 5 (“XBD5”)
  xcu5 X/Open Commands and Utilities Issue 5 (“XCU5”)
  xcurses4.2 X/Open Curses Issue 4, Version 2 (“XCURSES4.2”)
  xns5 X/Open Networking Services Issue 5 (“XNS5”)
  xns5.2 X/Open Networking Services Issue 5.2 (“XNS5.2”)
  xpg3 X/Open Portability Guide Issue 3 (“XPG3”)
  xpg4 X/Open Portability Guide Issue 4 (“XPG4”)
  xpg4.2 X/Open Portability Guide Issue 4, Version 2 (“XPG4.2”)
  xsh5 X/Open System Interfaces and Headers Issue 5 (“XSH5”)
`)

/** Libraries that `.Lb` takes, without `lib`. */
const libraries = toMap(`
  archive Reading and Writing Streaming Archives Library
  arm ARM Architecture Library
  arm32 ARM32 Architecture Library
  bluetooth Bluetooth Library
  bsm Basic Security Module Library
  c Standard C Library
  c_r Reentrant C Library
  calendar Calendar Arithmetic Library
  cam Common Access Method User Library
  cdk Curses Development Kit Library
  cipher FreeSec Crypt Library
  compat Compatibility Library
  crypt Crypt Library
  curses Curses Library
  devinfo Device and Resource Information Utility Library
  devstat Device Statistics Library
  disk Interface to Slice and Partition Labels Library
  dwarf DWARF Access Library
  edit Command Line Editor Library
  elf ELF Access Library
  event Event Notification Library
  fetch File Transfer Library for URLs
  form Curses Form Library
  geom Userland API Library for kernel GEOM subsystem
  gpib General-Purpose Instrument Bus (GPIB) library
  i386 i386 Architecture Library
  intl Internationalized Message Handling Library
  ipsec IPsec Policy Control Library
  ipx IPX Address Conversion Support Library
  iscsi iSCSI protocol library
  jail Jail Library
  kiconv Kernel side iconv library
  kse N:M Threading Library
  kvm Kernel Data Access Library
  m Math Library
  m68k m68k Architecture Library
  magic Magic Number Recognition Library
  md Message Digest (MD4, MD5, etc.) Support Library
  memstat Kernel Memory Allocator Statistics Library
  menu Curses Menu Library
  netgraph Netgraph User Library
  netpgp Netpgp signing, verification, encryption and decryption
  ossaudio OSS Audio Emulation Library
  pam Pluggable Authentication Module Library
  pcap Packet Capture Library
  pci PCI Bus Access Library
  pmc Performance Counters Library
  posix POSIX Compatibility Library
  prop Property Container Object Library
  pthread POSIX Threads Library
  puffs puffs Convenience Library
  refuse File System in Userspace Convenience Library
  resolv DNS Resolver Library
  rpcsec_gss RPC GSS-API Authentication Library
  rpcsvc RPC Service Library
  rt POSIX Real-time Library
  sdp Bluetooth Service Discovery Protocol User Library
  ssp Buffer Overflow Protection Library
  termcap Termcap Access Library
  terminfo Terminal Information Library
  thr 1:1 Threading Library
  ufs UFS File System Access Library
  ugidfw File System Firewall Interface Library
  ulog User Login Record Library
  usbhid USB Human Interface Devices Library
  util System Utilities Library
  vgl Video Graphics Library
  x86_64 x86_64 Architecture Library
  z Compression Library
`)

export function standardWords(name: string): string {
  return standards.get(name.replace(/^-/u, '')) ?? name
}

export function libraryWords(name: string): string {
  const known = libraries.get(name.replace(/^lib/u, ''))
  return known === undefined ? `library “${name}”` : `${known} (${name}, -l${name.replace(/^lib/u, '')})`
}

const attEditions: Readonly<Record<string, string>> = {
  '32v': 'Version 32V AT&T UNIX',
  III: 'AT&T System III UNIX',
  V: 'AT&T System V UNIX',
}

/** `.At v7`, `.At V.4`. */
export function attWords(version: string): string {
  if (/^v[1-7]$/u.test(version)) return `Version ${version.slice(1)} AT&T UNIX`
  if (/^V\.[1-4]$/u.test(version)) return `AT&T System V Release ${version.slice(2)} UNIX`
  return attEditions[version] ?? 'AT&T UNIX'
}

/** `.Bx 4.3 Reno`. */
export function bsdWords(version: string, variant: string): string {
  const name = `${version}BSD`
  return variant === '' ? name : `${name}-${variant[0]!.toUpperCase()}${variant.slice(1)}`
}

/** Systems that are named with a version. */
export const systems: ReadonlyMap<string, string> = new Map([
  ['Fx', 'FreeBSD'],
  ['Nx', 'NetBSD'],
  ['Ox', 'OpenBSD'],
  ['Dx', 'DragonFly'],
  ['Bsx', 'BSD/OS'],
])
