/**
 * Abbreviations that need no explanation here: those that the RFC Editor's list of abbreviations marks as well known (from
 * memory), those of Unix manual pages, units, and words that are written in capitals for another reason.
 */
const known = new Set(
  `AC ACL ACPI AES API APIs ARM ARP ASCII BIOS CA CD CDN CIDR CLI CNAME CPU CPUs CRC CSR CSS CSV DC DHCP DNS DNSSEC DVD EC ECC EFI EOF
   ESP FAQ FIFO FQDN FTP GB GHz GID GMT GNU GPG GPL GPS GPT GPU GPUs GRUB GUI GiB HDD HDMI HTML HTTP HTTPS Hz ICMP ID IDs IEEE IMAP
   IO IP IPMI IPP IPv4 IPv6 IRQ ISO ISP JSON KB KVM KiB LAN LDAP LED LEDs LTS LUKS LVM MAC MB MBR MHz MTU MiB NAS NAT NFS NIC NTP
   NVMe OCSP OK OS PC PCI PCIe PDF PEM PHP PID PIN PNG PoE PSK PXE RAID RAM RFC ROM RPM RSA RSS RTC SAN SAS SATA SCSI SD SELinux
   SFTP SHA SMART SMB SMTP SNI SNMP SQL SSD SSDs SSH SSL SSO STDERR STDIN STDOUT SVG TB TCP TFTP TLS TOTP TTL TTY TV TiB UART UDP UEFI
   UI UID UPS UPSs URI URL URLs USB UTC UTF UUID UUIDs VAT VLAN VLANs VM VMs VNC VPN WAN WLAN WPA WWN XFS XML YAML ZFS
   A I AM PM AND OR NOT IF THEN ELSE WHEN UNTIL WHILE UNLESS DO NO YES ON OFF OFFLINE ONLINE STOP START HOLD NEVER ALWAYS ONLY ALL
   DANGER WARNING CAUTION NOTICE NOTE EU UK US USA`
    .trim()
    .split(/\s+/u),
)

export interface Abbreviation {
  readonly start: number
  readonly end: number
  readonly word: string
}

/** What looks like an abbreviation: two to eight characters that begin with two capitals, no part of a path or a longer name. */
export function abbreviationsIn(text: string): Abbreviation[] {
  return Array.from(
    text.matchAll(/(?<![\p{L}\p{N}_\/.=-])\p{Lu}{2}[\p{Lu}\p{N}]{0,6}s?(?![\p{L}\p{N}_\/=@]|[.-]\p{L})/gu),
    (match) => ({
      start: match.index,
      end: match.index + match[0].length,
      word: match[0],
    }),
  ).filter(({ word }) => !known.has(word))
}

/** Whether a text says what an abbreviation stands for: in brackets behind the words, with the words in brackets, or so. */
export function isDefinedIn(text: string, word: string): boolean {
  const bare = word.replace(/s$/u, '')
  return (
    new RegExp(`\\p{L}[^.()]*\\(${bare}s?\\)`, 'u').test(text) ||
    new RegExp(`${bare}s? \\([^)]*\\p{Ll}{2}[^)]*\\)`, 'u').test(text) ||
    new RegExp(`${bare}s? (?:stands for|means|is short for)`, 'u').test(text)
  )
}
