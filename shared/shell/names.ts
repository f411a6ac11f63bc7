/** Names of commands, for telling a command from prose. What is not named here may be one all the same. */

const groups = [
  // POSIX utilities and what a shell has built in.
  'alias awk basename bg bind break builtin cal cat cd chgrp chmod chown cksum cmp comm command continue cp cut date dd',
  'declare df diff dirname dirs disown du echo ed enable env eval exec exit export expr false fc fg file find fold',
  'function getopts grep hash head help history iconv id jobs join kill let ln local locale logger logname logout ls m4',
  'mailx make man mkdir mkfifo more mv nice nl nohup od paste patch popd pr printf ps pushd pwd read readonly renice',
  'return rm rmdir sed set sh shift shopt sleep sort source split stat strings stty suspend tail tee test time times',
  'touch tr trap true tsort tty type typeset ulimit umask unalias uname unexpand uniq unset vi wait wc who write xargs',
  // GNU, util-linux and what every distribution carries.
  'arch base64 bash blkid blockdev busctl bzip2 cfdisk chattr chroot chsh clear column cpio cryptsetup csplit dash',
  'depmod dircolors dmesg e2fsck e2label egrep eject factor fallocate fdisk fgrep findmnt fish flock free fsck fstrim',
  'fuser getconf getent gpg groupadd groupdel groups gunzip gzip halt hexdump hostid hostname hostnamectl hwclock',
  'insmod install ionice ipcs journalctl kmod ksh last lastlog ldconfig ldd less link localectl locate loginctl losetup',
  'lsattr lsblk lscpu lsmod lsof lspci lsusb lvcreate lvextend lvs md5sum mdadm mkfs mkfs.ext4 mkfs.vfat mkfs.xfs mknod',
  'mkswap mktemp modprobe mount mountpoint namei newgrp nproc nsenter numfmt parted partprobe passwd pgrep pidof pkill',
  'pmap poweroff printenv pvs pwgen readlink realpath reboot reset resize2fs resolvectl rev rmmod rsync run-parts',
  'runuser script scriptreplay sdparm seq setfacl getfacl setsid sfdisk sgdisk sha1sum sha256sum sha512sum shred',
  'shuf shutdown smartctl ss strace su sudo doas swapoff swapon switch_root sync sysctl systemctl systemd-analyze',
  'systemd-cat systemd-run tac tar taskset timedatectl timeout top htop truncate tune2fs udevadm umount unlink unshare',
  'unxz unzip uptime useradd userdel usermod users uuidgen vgs vim view vipw visudo vmstat w wall watch wget whatis',
  'whereis which whoami wipefs xxd xz yes zcat zfs zgrep zip zless zpool zsh zstd nano pico emacs ne micro screen tmux',
  // Networks.
  'arp arping bridge brctl curl dhclient dig ethtool firewall-cmd ftp host hostapd ifconfig ifdown ifup ip iperf iperf3',
  'iptables ip6tables iw iwconfig nc ncat netplan netstat networkctl nft nmap nmcli nslookup ntpq chronyc chronyd ping',
  'ping6 route scp sftp socat ssh ssh-add ssh-agent ssh-copy-id ssh-keygen ssh-keyscan sshd sshfs tcpdump telnet',
  'tftp tracepath traceroute tshark ufw wg wg-quick whois wpa_cli minicom picocom cu tc vtysh openssl certbot step',
  // Packages, building, languages, services.
  'apk apt apt-cache apt-file apt-get apt-key apt-mark aptitude brew dnf dpkg dpkg-reconfigure flatpak pacman pip pip3',
  'pipx rpm snap yum zypper npm npx node yarn pnpm cargo rustc rustup go gcc g++ cc clang cmake ninja meson gdb perl',
  'python python3 ruby irb gem bundle php composer lua java javac mvn gradle git gh svn hg tig jq yq bc dc sqlite3',
  'mysql mysqldump mariadb mariadb-dump psql pg_dump pg_dumpall createdb redis-cli mongosh influx docker',
  'docker-compose podman buildah kubectl helm k3s minikube lxc lxd incus machinectl systemd-nspawn virsh virt-install',
  'qemu-img qemu-system-x86_64 vagrant ansible ansible-playbook terraform nginx apachectl apache2ctl a2ensite',
  'a2enmod crontab at batch anacron logrotate update-grub grub-install grub-mkconfig update-initramfs mkinitcpio dracut',
  'dpkg-query debootstrap adduser addgroup deluser delgroup chpasswd restic borg rclone ffmpeg convert dos2unix rename',
  'ipmitool upsc hdparm nvme sensors i2cdetect gpioset raspi-config vcgencmd postfix postconf mosquitto_pub mosquitto_sub',
]

/** Names of programs and built-in commands that people type at a prompt. */
export const commandNames: ReadonlySet<string> = new Set(groups.flatMap((group) => group.split(' ')))

/** Names that are ordinary English words too, so that they say little at the head of a sentence. */
export const ambiguousNames: ReadonlySet<string> = new Set(
  'at batch bind break builtin cal command comm continue convert cut date declare enable eject factor false file find fold free function go groups halt hash head help history host id install join jobs kill last less let link locate local logger look make man micro more mount namei nice node paste patch perl pr read readonly rename reset return route ruby screen script seq service set shift sleep sort source split step stat strings sync tail tee test time timeout times top touch trap true truncate type unlink unset users view w wait wall watch which who write yes column snap script bundle gem'.split(
    ' ',
  ),
)
