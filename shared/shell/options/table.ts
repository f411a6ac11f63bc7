/**
 * Options of commands, as far as they tell operands from values or long forms from short ones. After the manual pages of
 * the commands in Debian. How a line is written: `toOptionRules`.
 */
import { noRules, toOptionRules, type OptionRules } from './arguments.ts'

const apt =
  '-y,--yes,--assume-yes~ -q,--quiet=?~ -qq~ -V,--verbose-versions~ -s,--simulate,--dry-run -d,--download-only -f,--fix-broken -m,--ignore-missing -u,--show-upgraded~ -t,--default-release,--target-release= -o,--option= -c,--config-file= -a,--host-architecture= -P,--build-profiles= --no-install-recommends --install-recommends --no-install-suggests --install-suggests --reinstall --purge --no-remove --autoremove,--auto-remove --allow-downgrades --allow-change-held-packages --allow-unauthenticated --allow-remove-essential --only-upgrade --no-upgrade --trivial-only --fix-missing --show-progress~ --no-color~ -U,--update --installed --upgradable --all-versions --names-only --full --mark-auto'
const systemctl =
  '-t,--type= --state= -p,--property= -P= -a,--all~ -r,--recursive -l,--full~ --value --show-types --job-mode= -i --now -q,--quiet~ --wait --no-block --no-legend --no-reload --no-ask-password~ --no-pager~ --no-wall --user --system --global --runtime -f,--force --dry-run --preset-mode= --root= -s,--signal= -n,--lines= -o,--output= --firmware-setup --plain --timestamp= --mkdir -H,--host= -M,--machine= --kill-whom= --what= --failed --check-inhibitors=?'
const docker =
  '--config= -c,--context= -D,--debug~ -H,--host= -l,--log-level= --tls --tlscacert= --tlscert= --tlskey= --tlsverify'
const dockerRun =
  '-d,--detach -i,--interactive -t,--tty -e,--env= --env-file= -p,--publish= -P,--publish-all -v,--volume= --mount= --name= --rm --network= --net= --restart= -u,--user= -w,--workdir= --entrypoint= -h,--hostname= --privileged --cap-add= --cap-drop= --device= -l,--label= -m,--memory= --cpus= --link= --log-driver= --log-opt= --init --pull= --platform= --read-only --security-opt= --shm-size= --tmpfs= --ulimit= --userns= --dns= --add-host= --ip= --gpus= --pid= --ipc= -q,--quiet~ --cgroupns= --pod= --replace --health-cmd= --expose= >'
const ip =
  '-4 -6 -f= -family= -o,-oneline~ -d,-details~ -s,-stats,-statistics~ -h,-human~ -c=?~ -color=?~ -br,-brief~ -j,-json~ -p,-pretty~ -n,-netns= -r,-resolve~ -b,-batch= -N,-Numeric~ -t,-timestamp~ -a,-all -0 -B -M -I -D'
const git =
  '-C= -c= --git-dir= --work-tree= --namespace= --no-pager~ -P~ -p,--paginate~ --bare --exec-path=? --no-optional-locks~'
const curl =
  '-o,--output= -O,--remote-name -J,--remote-header-name -L,--location -f,--fail -s,--silent~ -S,--show-error~ -v,--verbose~ -i,--include -I,--head -X,--request= -d,--data= --data-raw= --data-binary= --data-urlencode= --json= -F,--form= -T,--upload-file= -H,--header= -u,--user= -A,--user-agent= -b,--cookie= -c,--cookie-jar= -k,--insecure -x,--proxy= -e,--referer= --cacert= --cert= -E= --key= --resolve= --connect-to= -m,--max-time= --connect-timeout= --retry= --retry-delay= -C,--continue-at= -r,--range= -4,--ipv4 -6,--ipv6 -w,--write-out= -D,--dump-header= -K,--config= --create-dirs --output-dir= -z,--time-cond= -#,--progress-bar~ --no-progress-meter~ -n,--netrc --proto= --proto-default= --tlsv1.2 --tlsv1.3 -N,--no-buffer -g,--globoff -G,--get --compressed --fail-with-body --limit-rate= --interface= --unix-socket= -Z,--parallel --remote-name-all'
const wget =
  '-O,--output-document= -P,--directory-prefix= -q,--quiet~ -nv,--no-verbose~ -v,--verbose~ -c,--continue -N,--timestamping -r,--recursive -np,--no-parent -nH,--no-host-directories -k,--convert-links -p,--page-requisites -m,--mirror -l,--level= -A,--accept= -R,--reject= -o,--output-file= -a,--append-output= -i,--input-file= -t,--tries= -T,--timeout= -U,--user-agent= --header= --user= --password= --no-check-certificate --ca-certificate= --post-data= --post-file= --method= --body-data= --spider -S,--server-response -4,--inet4-only -6,--inet6-only --show-progress~ --limit-rate= --progress= -nc,--no-clobber -x,--force-directories --content-disposition -b,--background -e,--execute='
const find = '-H -L -P'

/** Lines of options, each for the commands before it. */
export const optionTable: Readonly<Record<string, string>> = {
  'apt|apt-get': apt,
  aptitude: `${apt} -w= -F= -O= -r,--with-recommends -R,--without-recommends`,
  'apt-mark': '-q~ -f= -c= -o= -s',
  'apt-cache':
    '-q,--quiet~ -f,--full~ -a,--all-versions~ -i,--important -n,--names-only -o= -c= -p= -s= --installed --recurse',
  'apt-key': '--keyring= -q',
  'add-apt-repository':
    '-y,--yes~ -r,--remove -u,--update -n,--no-update -P,--ppa= -U,--uri= -S,--sourceslist= -C,--cloud= -c,--component= -p,--pocket= -s,--enable-source -L,--login',
  dpkg: '-i,--install -r,--remove -P,--purge -l,--list -L,--listfiles -S,--search -s,--status -p,--print-avail -c,--contents -I,--info -x,--extract -X,--vextract --unpack --configure -a,--pending -R,--recursive -C,--audit -V,--verify --add-architecture --remove-architecture --print-architecture --print-foreign-architectures --get-selections --set-selections --clear-selections --compare-versions -G --root= --admindir= -E,--skip-same-version --force-all --dry-run,--no-act,--simulate --no-triggers -B,--auto-deconfigure',
  'dpkg-query':
    '-l,--list -L,--listfiles -S,--search -s,--status -W,--show -p,--print-avail -f,--showformat= --admindir= -c,--control-path',
  'dpkg-reconfigure':
    '-f,--frontend= -p,--priority= -u,--unseen-only --default-priority --force --no-reload -a,--all',
  'dnf|yum':
    '-y,--assumeyes~ -q,--quiet~ -v,--verbose~ -b,--best -C,--cacheonly --enablerepo= --disablerepo= --repo= -x,--exclude= --installroot= --releasever= --setopt= --nogpgcheck --allowerasing --skip-broken --downloadonly --refresh',
  apk: '-U,--update-cache -q,--quiet~ -v,--verbose~ -X,--repository= -p,--root= --no-cache -t,--virtual= -f,--force -l,--latest -u,--upgrade --allow-untrusted',
  pacman:
    '-S,--sync -R,--remove -U,--upgrade -Q,--query -F,--files -y,--refresh -u,--sysupgrade -c,--clean -s,--recursive,--search -i,--info -l,--list -n,--nosave -q,--quiet~ -w,--downloadonly --noconfirm~ --needed',
  'pip|pip3':
    '-r,--requirement= -e,--editable= -U,--upgrade -q,--quiet~ -v,--verbose~ -y,--yes~ --user --break-system-packages -i,--index-url= --extra-index-url= -t,--target= --prefix= --root= -c,--constraint= --no-cache-dir~ --no-deps --pre --force-reinstall --no-index -f,--find-links= --proxy= --trusted-host= --disable-pip-version-check~',
  'npm|pnpm|yarn':
    '-g,--global -D,--save-dev -S,--save -E,--save-exact --prefix= -C= --registry= --omit= --production --no-audit~ --no-fund~ --loglevel=~ --silent~ -s~ --force --legacy-peer-deps --ignore-scripts -w,--workspace= -y,--yes~',
  snap: '--classic --channel= --edge --beta --candidate --stable --devmode --dangerous --purge --revision= --no-wait',
  flatpak:
    '-y,--assumeyes~ --noninteractive~ --user --system --arch= --if-not-exists --from -v,--verbose~ --gpg-import= --delete-data',
  systemctl,
  service: '--status-all',
  journalctl:
    '-u,--unit= --user-unit= -f,--follow -n,--lines=? -r,--reverse -o,--output= -p,--priority= -g,--grep= -S,--since= -U,--until= -b,--boot=? -k,--dmesg -e,--pager-end~ -x,--catalog~ -a,--all -q,--quiet~ --no-pager~ --no-hostname~ -t,--identifier= -D,--directory= --file= -M,--machine= --list-boots --disk-usage --vacuum-size= --vacuum-time= --vacuum-files= --rotate --flush --sync --verify --user --system -c,--cursor= -F,--field= -l,--full~ --utc -m,--merge --no-full~ --setup-keys --update-catalog',
  ip,
  bridge: ip,
  tc: ip,
  ss: '-t,--tcp -u,--udp -l,--listening -n,--numeric -p,--processes -a,--all -4,--ipv4 -6,--ipv6 -x,--unix -s,--summary -e,--extended -i,--info -m,--memory -o,--options -r,--resolve -H,--no-header -K,--kill -w -f,--family= -A,--query= -O,--oneline -N,--net=',
  iptables:
    '-t,--table= -A,--append= -D,--delete= -I,--insert= -R,--replace= -L,--list=? -S,--list-rules=? -F,--flush=? -Z,--zero=? -N,--new-chain= -X,--delete-chain=? -P,--policy= -E,--rename-chain= -C,--check= -p,--protocol= -s,--source= -d,--destination= -j,--jump= -g,--goto= -i,--in-interface= -o,--out-interface= -m,--match= --dport,--destination-port= --sport,--source-port= -n,--numeric~ -v,--verbose~ -w,--wait=? --line-numbers~ --state= --ctstate= --to-destination= --to-source= --to-ports= --comment= --icmp-type= --limit= --limit-burst= --log-prefix= --reject-with= --dports= --sports= --set-mark=',
  nft: '-f,--file= -c,--check -a,--handle~ -n,--numeric~ -j,--json~ -i,--interactive -o,--optimize -e,--echo~ -s,--stateless~ -D,--define= -I,--includepath= -t,--terse~',
  ufw: '--dry-run --force~',
  'firewall-cmd':
    '--permanent --reload --complete-reload --state --list-all --list-all-zones --get-zones --get-default-zone --get-active-zones --set-default-zone= --zone= --add-service= --remove-service= --add-port= --remove-port= --add-source= --remove-source= --add-interface= --remove-interface= --add-rich-rule= --remove-rich-rule= --add-masquerade --remove-masquerade --query-service= --query-port= --list-services --list-ports --runtime-to-permanent --new-zone= --panic-on --panic-off --timeout=',
  ping: '-c= -i= -W= -w= -s= -I= -n~ -q~ -4 -6 -D~ -f -M= -t= -O~ -A',
  dig: '-t= -p= -4 -6 -x= -f= -b= -k= -y= -c= -q= -r -u -i -h -v -m',
  curl,
  wget,
  scp: '-r -p -q~ -v~ -C -3 -4 -6 -B -A -O -R -T -P= -i= -F= -J= -l= -c= -o= -S= -D= -X=',
  sftp: '-r -p -q~ -v~ -C -4 -6 -a -A -f -N -b= -B= -c= -D= -F= -i= -J= -l= -o= -P= -R= -S= -s=',
  rsync:
    '-a,--archive -v,--verbose~ -q,--quiet~ -c,--checksum -r,--recursive -R,--relative -u,--update -l,--links -L,--copy-links -k,--copy-dirlinks -K,--keep-dirlinks -H,--hard-links -p,--perms -E,--executability -A,--acls -X,--xattrs -o,--owner -g,--group -D -t,--times -U,--atimes -O,--omit-dir-times -J,--omit-link-times -S,--sparse -n,--dry-run -W,--whole-file -x,--one-file-system -e,--rsh= -d,--dirs -b,--backup -h,--human-readable~ -i,--itemize-changes~ -P -z,--compress -C,--cvs-exclude -f,--filter= -F -0,--from0 -I,--ignore-times -s,--secluded-args -y,--fuzzy -m,--prune-empty-dirs -4,--ipv4 -6,--ipv6 -B,--block-size= -T,--temp-dir= -M,--remote-option= -@,--modify-window= --delete --delete-before --delete-after --delete-during,--del --delete-delay --delete-excluded --exclude= --exclude-from= --include= --include-from= --files-from= --progress~ --stats~ --partial --partial-dir= --bwlimit= --rsync-path= --backup-dir= --suffix= --link-dest= --compare-dest= --copy-dest= --numeric-ids --inplace --append --info= --out-format= --log-file= --password-file= --port= --timeout= --contimeout= --chmod= --chown= --usermap= --groupmap= --existing --ignore-existing --remove-source-files --max-size= --min-size= --size-only --mkpath --fake-super --super --no-owner --no-group --no-perms',
  'ssh-keygen':
    '-t= -b= -f= -C= -N= -P= -q~ -l -R= -F= -y -p -e -i -m= -E= -a= -A -H -r= -s= -I= -n= -V= -z= -O= -K -k -L -B -v~ -Y= -c',
  'ssh-copy-id': '-i= -p= -o= -f -n -s -t=',
  'ssh-add': '-l -L -D -d -t= -c -k -x -X -q~ -v~ -e= -s= -E= -H= -h= -T= -K',
  'ssh-keyscan': '-t= -p= -T= -H -4 -6 -f= -D -c -v~',
  gpg: '-a,--armor -o,--output= -d,--decrypt -e,--encrypt -s,--sign -b,--detach-sign -c,--symmetric -k,--list-keys,--list-public-keys -K,--list-secret-keys -r,--recipient= -u,--local-user= -v,--verbose~ -q,--quiet~ -n,--dry-run --batch --yes --import --export --export-secret-keys --recv-keys,--receive-keys --send-keys --search-keys --refresh-keys --fetch-keys --keyserver= --keyring= --no-default-keyring --homedir= --dearmor --enarmor --verify --fingerprint --gen-key,--generate-key --full-generate-key,--full-gen-key --delete-keys,--delete-key --delete-secret-keys,--delete-secret-key --edit-key,--key-edit --show-keys --with-fingerprint --import-options= --trust-model= --pinentry-mode= --passphrase= --passphrase-file= --clearsign,--clear-sign',
  openssl: '>',
  git,
  'git commit':
    '-m,--message= -a,--all -F,--file= -C= -c= --amend --no-edit -s,--signoff -S=? -v,--verbose~ -q,--quiet~ --allow-empty --author= --date= -p,--patch -n,--no-verify --dry-run --fixup= -e,--edit -t,--template=',
  'git clone':
    '-b,--branch= --depth= -o,--origin= -q,--quiet~ -v,--verbose~ --progress~ --bare --mirror --recurse-submodules,--recursive=? -n,--no-checkout --single-branch --reference= -c,--config= -j,--jobs= --filter= -l,--local -s,--shared --no-hardlinks --separate-git-dir= --shallow-submodules -u=',
  'git checkout|git switch':
    '-b= -B= -c,--create= -C= -f,--force -q,--quiet~ -d,--detach --track=? -t --orphan= -m,--merge -p,--patch --ours --theirs',
  'git reset': '--hard --soft --mixed --keep --merge -q,--quiet~ -p,--patch -N',
  'git push':
    '-u,--set-upstream -f,--force --force-with-lease=? --tags --all -d,--delete -q,--quiet~ -v,--verbose~ -n,--dry-run --mirror --prune -o= --follow-tags --atomic',
  'git pull|git fetch':
    '-r,--rebase=? --ff-only --no-ff --no-rebase --tags -t --all -p,--prune -q,--quiet~ -v,--verbose~ --depth= --unshallow -a,--append -f,--force -j,--jobs= --dry-run --autostash',
  'git branch':
    '-d,--delete -D -m,--move -M -c,--copy -C -a,--all -r,--remotes -v -vv -l,--list -f,--force -u,--set-upstream-to= --unset-upstream -t,--track=? --show-current --contains=? --merged=? --no-merged=? --sort= --format= -q,--quiet~ --edit-description',
  'git config':
    '--global --system --local --worktree -f,--file= --get --get-all --add --unset --unset-all --replace-all -l,--list -e,--edit --type= --bool --int --show-origin --rename-section --remove-section',
  'git tag':
    '-a,--annotate -s,--sign -m,--message= -d,--delete -l,--list -f,--force -v,--verify -n=? -F,--file= -u,--local-user=',
  'git stash': '-u,--include-untracked -m,--message= -k,--keep-index -q,--quiet~ -p,--patch -a,--all --index',
  'git clean': '-d -f,--force -x -X -n,--dry-run -i,--interactive -q,--quiet~ -e,--exclude=',
  'git rebase':
    '-i,--interactive --onto= --continue --abort --skip --autosquash --autostash -r,--rebase-merges=? -x,--exec= -q,--quiet~',
  'git add|git rm|git mv':
    '-A,--all -p,--patch -i,--interactive -u,--update -f,--force -n,--dry-run -v,--verbose~ -r --cached -N,--intent-to-add -q,--quiet~ -e,--edit -k',
  'git remote': '-v,--verbose~ -f -t= -m= --tags --add --push --delete --all',
  'docker|podman|docker-compose|nerdctl': docker,
  'docker run|podman run|docker create|podman create|docker container run|nerdctl run': dockerRun,
  'docker build|podman build|docker buildx':
    '-t,--tag= -f,--file= --build-arg= --no-cache --pull -q,--quiet~ --target= --platform= --label= --network= --progress= --rm --secret= --ssh= --squash -o,--output= --push --load',
  'docker compose|podman compose|docker-compose':
    '-f,--file= -p,--project-name= --profile= --env-file= --project-directory= -d,--detach --build --force-recreate --no-deps --remove-orphans -v,--volumes --rmi= -t,--timeout= --scale= --pull= -q,--quiet~ --wait',
  'docker logs|podman logs': '-f,--follow -n,--tail= -t,--timestamps --since= --until= --details',
  'docker ps|podman ps|docker images|podman images':
    '-a,--all -q,--quiet -f,--filter= --format= -n,--last= -l,--latest --no-trunc -s,--size --digests',
  'docker rm|podman rm|docker rmi|podman rmi|docker stop|podman stop|docker volume|podman volume|docker network|podman network|docker kill|podman kill|docker restart|podman restart|docker system|podman system|docker image|podman image':
    '-f,--force -v,--volumes -a,--all -t,--time,--timeout= -s,--signal= -l,--link --filter= -d,--driver= -o,--opt= --label= --subnet= --gateway= --ip-range= -i,--ignore',
  kubectl:
    '-n,--namespace= -f,--filename= -o,--output= -l,--selector= -A,--all-namespaces -k,--kustomize= --context= --kubeconfig= -c,--container= --dry-run=? --force --grace-period= -R,--recursive -w,--watch --all --timeout= --replicas= --image= --tail= --since= -p,--previous -i,--stdin -t,--tty',
  helm: '-n,--namespace= -f,--values= --set= --version= --create-namespace --wait --timeout= -i,--install --dry-run --kube-context= --repo= --atomic -A,--all-namespaces',
  'ls|dir|vdir':
    '-a,--all -A,--almost-all -l -h,--human-readable -t -r,--reverse -R,--recursive -S -1 -d,--directory -i,--inode -F,--classify=? -n,--numeric-uid-gid -Z,--context -s,--size -g -G -o -L,--dereference -c -u -U -v -X -p --color=?~ --time-style= --full-time --sort= -w= -I= -T= --group-directories-first -b -B -C -x -k -m -N -q -Q -f -D -H',
  cp: '-r,-R,--recursive -a,--archive -p --preserve=? -f,--force -i,--interactive -n,--no-clobber -u,--update=? -v,--verbose~ -l,--link -s,--symbolic-link -t,--target-directory= -T,--no-target-directory -b --backup=? -S,--suffix= -x,--one-file-system -d -L,--dereference -P,--no-dereference --parents --sparse= --reflink=? --remove-destination -Z --context=? -H --attributes-only --no-preserve=',
  mv: '-f,--force -i,--interactive -n,--no-clobber -u,--update=? -v,--verbose~ -t,--target-directory= -T,--no-target-directory -b --backup=? -S,--suffix= -Z --exchange',
  rm: '-r,-R,--recursive -f,--force -i -I -d,--dir -v,--verbose~ --one-file-system --preserve-root=? --no-preserve-root --interactive=?',
  mkdir: '-p,--parents -m,--mode= -v,--verbose~ -Z --context=?',
  rmdir: '-p,--parents -v,--verbose~ --ignore-fail-on-non-empty',
  ln: '-s,--symbolic -f,--force -n,--no-dereference -i,--interactive -v,--verbose~ -t,--target-directory= -T,--no-target-directory -r,--relative -b --backup=? -S,--suffix= -L,--logical -P,--physical -d -F',
  'chmod|chown|chgrp':
    '-R,--recursive -v,--verbose~ -c,--changes~ -f,--silent,--quiet~ -h,--no-dereference --dereference --reference= --from= --preserve-root --no-preserve-root -H -L -P',
  touch: '-a -m -c,--no-create -d,--date= -t= -r,--reference= -h,--no-dereference --time=',
  install:
    '-d,--directory -m,--mode= -o,--owner= -g,--group= -D -v,--verbose~ -t,--target-directory= -T,--no-target-directory -s,--strip -b --backup=? -S,--suffix= -C,--compare -p,--preserve-timestamps -Z',
  tee: '-a,--append -i,--ignore-interrupts -p --output-error=?',
  truncate: '-s,--size= -c,--no-create -o,--io-blocks -r,--reference=',
  shred:
    '-n,--iterations= -u --remove=? -z,--zero -v,--verbose~ -f,--force -s,--size= -x,--exact --random-source=',
  fallocate:
    '-l,--length= -o,--offset= -n,--keep-size -p,--punch-hole -d,--dig-holes -z,--zero-range -c,--collapse-range -i,--insert-range -v,--verbose~ -x,--posix',
  mktemp: '-d,--directory -p,--tmpdir=? -u,--dry-run -q,--quiet~ --suffix= -t',
  'cat|tac':
    '-n,--number -A,--show-all -b,--number-nonblank -E,--show-ends -e -s,--squeeze-blank -T,--show-tabs -t -v,--show-nonprinting',
  'head|tail':
    '-n,--lines= -c,--bytes= -f,--follow=? -F -q,--quiet,--silent~ -v,--verbose~ -s,--sleep-interval= --pid= --retry -z,--zero-terminated',
  'grep|egrep|fgrep|zgrep':
    '-e,--regexp= -f,--file= -i,--ignore-case -v,--invert-match -w,--word-regexp -x,--line-regexp -c,--count -l,--files-with-matches -L,--files-without-match -n,--line-number -o,--only-matching -q,--quiet,--silent -s,--no-messages -r,--recursive -R,--dereference-recursive -E,--extended-regexp -F,--fixed-strings -P,--perl-regexp -G,--basic-regexp -A,--after-context= -B,--before-context= -C,--context= -m,--max-count= -h,--no-filename -H,--with-filename -a,--text --color=?~ --colour=?~ --include= --exclude= --exclude-dir= -z,--null-data -Z,--null -U,--binary -I',
  sed: '-i,--in-place=? -n,--quiet,--silent -e,--expression= -f,--file= -E,-r,--regexp-extended -s,--separate -z,--null-data -u,--unbuffered -l,--line-length= --follow-symlinks --posix --debug --sandbox',
  'awk|gawk|mawk': '-F,--field-separator= -v,--assign= -f,--file= -i,--include= >',
  perl: '-e= -E= -i=? -p -n -l=? -a -F= -w -M= -I= -0=? -s -T -c -v >',
  sort: '-u,--unique -r,--reverse -n,--numeric-sort -h,--human-numeric-sort -V,--version-sort -k,--key= -t,--field-separator= -o,--output= -f,--ignore-case -b,--ignore-leading-blanks -s,--stable -c,--check=? -m,--merge -z,--zero-terminated -R,--random-sort -M,--month-sort -g,--general-numeric-sort -T,--temporary-directory= -S,--buffer-size= --parallel= -d,--dictionary-order -i,--ignore-nonprinting',
  'diff|cmp|comm':
    '-u -U,--unified= -r,--recursive -N,--new-file -q,--brief -i,--ignore-case -w,--ignore-all-space -b,--ignore-space-change -B,--ignore-blank-lines -y,--side-by-side -s,--report-identical-files -c -C,--context= -a,--text --color=?~ -x,--exclude= -1 -2 -3 -l -n -L,--label= -W,--width=',
  patch:
    '-p,--strip= -i,--input= -d,--directory= -R,--reverse -b,--backup -o,--output= -N,--forward -f,--force -s,--silent,--quiet~ --dry-run -E -r,--reject-file= -z,--suffix= -t,--batch -u,--unified -F,--fuzz= --verbose~',
  tar: '-c,--create -x,--get,--extract -t,--list -r,--append -u,--update -A,--concatenate -d,--diff,--compare -f,--file= -v,--verbose~ -z,--gzip -j,--bzip2 -J,--xz -a,--auto-compress --zstd -C,--directory= -p,--preserve-permissions -k,--keep-old-files -h,--dereference -W,--verify -X,--exclude-from= --exclude= -T,--files-from= --strip-components= -O,--to-stdout -P,--absolute-names -S,--sparse -m,--touch -w,--interactive -g,--listed-incremental= -I,--use-compress-program= --owner= --group= --mode= --numeric-owner --transform= --wildcards --one-file-system --remove-files -N,--newer= -b,--blocking-factor= -n -l -i -G -M -V,--label= -L= --delete --same-owner --no-same-owner --acls --xattrs --selinux --totals~ --checkpoint=?~ !',
  'gzip|gunzip|bzip2|bunzip2|xz|unxz|zstd|unzstd':
    '-d,--decompress,--uncompress -k,--keep -c,--stdout,--to-stdout -f,--force -v,--verbose~ -q,--quiet~ -l,--list -t,--test -r,--recursive -n,--no-name -N,--name -S,--suffix= -1,--fast -2 -3 -4 -5 -6 -7 -8 -9,--best -T,--threads= -o= --rm -z,--compress -e,--extreme -a',
  unzip: '-o -n -q~ -l -v -d= -t -j -x -p -u -f -P= -C -L -Z -a -b -qq~',
  zip: '-r -q~ -9 -j -u -d -m -e -x= -i= -y -v~ -T -P= -s= -@ -0 -1',
  find,
  'df|du':
    '-h,--human-readable -T,--print-type -i,--inodes -s,--summarize -a,--all -x,--one-file-system -c,--total -d,--max-depth= -k -m -B,--block-size= -t,--type= --output=? --exclude= -l,--local -H,--si -P -b,--bytes -L -D -S,--separate-dirs -0,--null --apparent-size --exclude-type= --time=?',
  ps: '-e -A -f -F -l -a -u= -U= -o= -C= -p,--pid= -t= --sort= -H --forest -w -L -T -x --no-headers -j -M -Z -g=',
  'kill|pkill|killall':
    '-s,--signal= -l,--list=? -n= -f,--full -u,--euid= -U,--uid= -x,--exact -9 -15 -1 -HUP -TERM -KILL -INT -USR1 -USR2 -STOP -CONT -e,--echo~ -v,--verbose~ -w,--wait -I,--ignore-case -i,--interactive -q,--quiet~ -g,--pgroup= -P,--parent= -t,--terminal= -o,--oldest -c,--count',
  mount:
    '-t,--types= -o,--options= -a,--all -r,--read-only -w,--rw,--read-write -B,--bind -R,--rbind -M,--move -L,--label= -U,--uuid= -v,--verbose~ -n,--no-mtab -f,--fake -l,--show-labels -T,--fstab= --make-private --make-shared --make-slave --make-rprivate --make-rshared --make-rslave --make-unbindable --target= --source= -O,--test-opts= -N,--namespace= -m,--mkdir=? -i,--internal-only -s -c,--no-canonicalize',
  umount:
    '-a,--all -A,--all-targets -f,--force -l,--lazy -R,--recursive -v,--verbose~ -t,--types= -n,--no-mtab -r,--read-only -d,--detach-loop -q,--quiet~ -O,--test-opts= -N,--namespace= -i -c',
  'swapon|swapoff':
    '-a,--all -p,--priority= -s,--summary --show=? -L= -U= -d,--discard=? -e,--ifexists -f,--fixpgsz -v,--verbose~ -o= --noheadings --raw --bytes',
  lsblk:
    '-f,--fs -o,--output= -p,--paths -l,--list -n,--noheadings -a,--all -b,--bytes -d,--nodeps -S,--scsi -t,--topology -J,--json -m,--perms -r,--raw -e,--exclude= -I,--include= -i,--ascii -O,--output-all -D,--discard -T,--tree=? -s,--inverse -P,--pairs -x,--sort= -z,--zoned',
  blkid:
    '-o,--output= -s,--match-tag= -t,--match-token= -p,--probe -c,--cache-file= -g,--garbage-collect -k,--list-filesystems -l,--list-one -L,--label= -U,--uuid= -i,--info -u,--usages= -n,--match-types=',
  'mkfs|mkfs.ext2|mkfs.ext3|mkfs.ext4|mke2fs|mkfs.xfs|mkfs.btrfs|mkfs.vfat|mkfs.fat|mkfs.f2fs|mkfs.ntfs|mkfs.exfat':
    '-t,--type= -L,--label= -U= -f,--force -F=? -m= -b= -d= -E= -O= -n= -N= -i= -I= -j -J= -q,--quiet~ -v,--verbose~ -V -c -l= -T= -D= -K -s= -S= -R= -r= -M= -C -a -A',
  mkswap:
    '-L,--label= -U,--uuid= -f,--force -c,--check -p,--pagesize= -v,--swapversion= --verbose~ -q,--quiet~',
  wipefs:
    '-a,--all -f,--force -n,--no-act -o,--offset= -t,--types= -b,--backup=? -q,--quiet~ -i,--noheadings -J,--json -O,--output= -p,--parsable --lock=?',
  'fdisk|sfdisk|cfdisk':
    '-l,--list -b,--sector-size= -u,--units=? -x,--list-details -o,--output= -w,--wipe= -W,--wipe-partitions= -t,--type= -d,--dump -J,--json -N= -n,--no-act -f,--force -a,--append --delete --part-type --part-label --part-uuid --activate -q,--quiet~ --no-reread --no-tell-kernel -V,--verify -s,--show-size -A -B,--protect-boot -c,--compatibility=? -L,--color=?~',
  parted: '-s,--script~ -l,--list -m,--machine~ -a,--align= -i,--interactive -f,--fix -j,--json~ >',
  sgdisk:
    '-p,--print -n,--new= -d,--delete= -t,--typecode= -c,--change-name= -Z,--zap-all -z,--zap -o,--clear -g,--mbrtogpt -R,--replicate= -G,--randomize-guids -b,--backup= -l,--load-backup= -i,--info= -L,--list-types -v,--verify -e,--move-second-header -a,--set-alignment= -A,--attributes= -N,--largest-new= -u,--partition-guid= -U,--disk-guid= -F -f -E -D -P,--pretend',
  'lvcreate|lvextend|lvreduce|lvresize|lvremove|lvchange|lvconvert|lvrename':
    '-L,--size= -l,--extents= -n,--name= -r,--resizefs -y,--yes~ -f,--force -v,--verbose~ -q,--quiet~ -t,--test -T,--thin -V,--virtualsize= -s,--snapshot -i,--stripes= -I,--stripesize= -m,--mirrors= --type= -a,--activate= -Z,--zero= -W,--wipesignatures= -p,--permission= --thinpool= --poolmetadatasize= -c,--chunksize= -S,--select= -K -P --merge --cache --addtag= --deltag= --refresh',
  'vgcreate|vgextend|vgreduce|vgremove|vgchange|vgrename|vgcfgbackup|vgcfgrestore|pvcreate|pvremove|pvmove|pvresize':
    '-y,--yes~ -f,--force -v,--verbose~ -q,--quiet~ -t,--test -n,--name= -a,--activate= -s,--physicalextentsize= --dataalignment= --removemissing -u,--uuid= -Z,--zero= --metadatasize= --setphysicalvolumesize= -b,--background -i,--interval= --abort -c,--clustered= --restorefile= -S,--select=',
  'lvs|vgs|pvs|lvdisplay|vgdisplay|pvdisplay|lvscan|vgscan|pvscan':
    '-a,--all -o,--options= --units= --noheadings -S,--select= -C,--columns -v,--verbose~ -q,--quiet~ --reportformat= -m,--maps -s,--short -O,--sort= --separator= --cache',
  mdadm:
    '-C,--create -A,--assemble -a,--add -r,--remove -f,--fail,--set-faulty -D,--detail -E,--examine -s,--scan -S,--stop -G,--grow -Q,--query -l,--level= -n,--raid-devices= -x,--spare-devices= -e,--metadata= -c,--config= -N,--name= --zero-superblock -R,--run -v,--verbose~ -q,--quiet~ -I,--incremental -F,--monitor,--follow --force -o,--readonly -w,--readwrite -u,--uuid= -b,--bitmap= -z,--size= -W,--wait --re-add --replace --with --assume-clean --homehost= -m,--mail= -t,--test --delay=',
  cryptsetup:
    '-y,--verify-passphrase -c,--cipher= -h,--hash= -s,--key-size= -d,--key-file= -S,--key-slot= -q,--batch-mode~ -v,--verbose~ -r,--readonly -T,--tries= -M,--type= -l,--keyfile-size= -t,--timeout= --label= --pbkdf= --header= --header-backup-file= --allow-discards --use-random --use-urandom -i,--iter-time= --new-keyfile= --uuid=',
  zpool: '-f -n -o= -O= -R= -m= -t= -p -H -v -d= -a -N -l -L -P -g -T= -D -F -s -w -i -c',
  zfs: '-r -R -f -n -p -P -H -v -o= -O= -t= -V= -a -N -l -u -i= -I= -c -e -L -w -D -F -x= -k',
  'useradd|usermod|adduser':
    '-m,--create-home -M,--no-create-home -s,--shell= -g,--gid= -G,--groups= -a,--append -d,--home-dir,--home= -u,--uid= -c,--comment= -r,--system -p,--password= -e,--expiredate= -f,--inactive= -k,--skel= -l,--login= -L,--lock -U,--unlock -N,--no-user-group -o,--non-unique -R,--root= -P,--prefix= -K,--key= -D,--defaults --disabled-password --disabled-login --gecos= --ingroup= --quiet~ --group --move-home -rG= -aG=',
  'userdel|groupdel|groupadd|groupmod|deluser|delgroup|addgroup':
    '-r,--remove -f,--force -g,--gid= -o,--non-unique -K,--key= -R,--root= -P,--prefix= --remove-home --remove-all-files --backup --system --quiet~ -n,--new-name= -p,--password= --group',
  passwd:
    '-l,--lock -u,--unlock -d,--delete -e,--expire -S,--status -a,--all -x,--maxdays= -n,--mindays= -w,--warndays= -i,--inactive= -q,--quiet~ -R,--root= -k',
  chpasswd: '-e,--encrypted -c,--crypt-method= -m,--md5 -R,--root= -P,--prefix= -s,--sha-rounds=',
  crontab: '-l -e -r -i -u= -n -T',
  sysctl:
    '-w,--write -p,--load=? -a,--all -n,--values -q,--quiet~ --system -e,--ignore -N,--names -f -r,--pattern= -b,--binary',
  modprobe:
    '-r,--remove -v,--verbose~ -n,--dry-run,--show -a,--all -f,--force -q,--quiet~ -D,--show-depends -C,--config= -i,--ignore-install -R,--resolve-alias -S,--set-version= -c,--showconfig -b,--use-blacklist',
  dmesg:
    '-C,--clear -c,--read-clear -D,--console-off -E,--console-on -F,--file= -f,--facility= -H,--human -k,--kernel -L,--color=?~ -l,--level= -n,--console-level= -P,--nopager~ -r,--raw -T,--ctime -t,--notime -u,--userspace -w,--follow -W,--follow-new -x,--decode -e,--reltime -d,--show-delta -S,--syslog -s,--buffer-size= --since= --until= -J,--json',
  'shutdown|halt|poweroff|reboot':
    '-h -r,--reboot -P,--poweroff -H,--halt -c -k --no-wall~ --show -f,--force -p -w,--wtmp-only -d,--no-wtmp -n,--no-sync',
  smartctl:
    '-a,--all -x,--xall -i,--info -H,--health -A,--attributes -l,--log= -t,--test= -d,--device= -c,--capabilities -s,--smart= -o,--offlineauto= -S,--saveauto= -X,--abort -C,--captive -q,--quietmode= -n,--nocheck= -j,--json=? -g,--get= --scan --scan-open -b,--badsum= -r,--report= -T,--tolerance= -v,--vendorattribute= -f,--format= -P,--presets= -F,--firmwarebug= -B,--drivedb=',
  hdparm:
    '-i -I -t -T -y -Y -C -S= -B= -W=? -g -M=? -r=? -a=? -A=? -f -F --security-erase= --security-erase-enhanced= --security-set-pass= --security-unlock= --user-master= --yes-i-know-what-i-am-doing --trim-sector-ranges --dco-restore --make-bad-sector= --write-sector= --fibmap=',
  'fsck|fsck.ext4|e2fsck|xfs_repair|fsck.vfat|btrfsck':
    '-n -y -p -f -a -r -A -C=? -t= -v~ -V~ -N -R -T -M -c -k -b= -B= -j= -l= -L -m= -o= -d -P -E= -D -s -w -z=',
  'psql|pg_dump|pg_dumpall|pg_restore|createdb|dropdb|createuser|dropuser|pg_basebackup|vacuumdb|pg_isready|reindexdb|clusterdb':
    '-h,--host= -p,--port= -U,--username= -d,--dbname= -c,--command= -f,--file= -l,--list -A,--no-align -t,--tuples-only -q,--quiet~ -v,--set,--variable= -X,--no-psqlrc -1,--single-transaction -F= -R= -o,--output= -w,--no-password -W,--password -E,--encoding= -O,--owner= -T,--template= -Z= -j,--jobs= -n,--schema= -N= -a,--all -s,--superuser -C,--create -e,--echo~ -i,--interactive -D,--pgdata= --if-exists -x,--expanded -P,--pset= --checkpoint= -b,--blobs -r,--roles-only -g,--globals-only --clean -z,--analyze -S',
  'mysql|mariadb|mysqldump|mariadb-dump|mysqladmin|mariadb-admin':
    '-h,--host= -P,--port= -u,--user= -p,--password=? -e,--execute= -D,--database= -N,--skip-column-names -B,--batch -S,--socket= -A,--no-auto-rehash -r,--result-file= --all-databases --databases --single-transaction --routines --events --triggers --add-drop-table --no-data -d --where= -w= -t --protocol= --ssl-mode= --defaults-file= --defaults-extra-file= -f,--force -v~ -q,--quick',
  'redis-cli':
    '-h= -p= -a= -n= -u= --no-auth-warning~ -x --raw --scan --pattern= --stat --latency --rdb=  -s= --user= --pass= --tls >',
  sqlite3:
    '-batch -bail -csv -header -json -line -list -readonly -separator= -cmd= -init= -column -html -noheader -nullvalue= -interactive',
  dd: '--help',
  cpio: '-o,--create -i,--extract -p,--pass-through -d,--make-directories -v,--verbose~ -t,--list -u,--unconditional -m,--preserve-modification-time -0,--null -F,--file= -H,--format= -D,--directory= -O= -I= -B -C= -c -a -L -E= -R=',
  hostnamectl: '--static --transient --pretty -H= -M= --no-ask-password~ --json=',
  timedatectl:
    '-H= -M= --no-pager~ --adjust-system-clock -a,--all -p,--property= --value --monitor --no-ask-password~',
  certbot:
    '-d,--domains= -n,--non-interactive,--noninteractive~ -m,--email= --agree-tos~ --standalone --webroot -w,--webroot-path= --nginx --apache --dry-run --test-cert,--staging --cert-name= --force-renewal --expand --preferred-challenges= --manual --key-type= -q,--quiet~ -v,--verbose~ --redirect --hsts --deploy-hook= --post-hook= --pre-hook= --renew-hook= -a= -i= --server=',
  make: '-C,--directory= -f,--file,--makefile= -j,--jobs=? -k,--keep-going -n,--just-print,--dry-run,--recon -s,--silent,--quiet~ -B,--always-make -i,--ignore-errors -e -r -R -I= -o= -W= -w -t,--touch -q -p -v -l=? -O=? -S -d',
  cargo:
    '--release -q,--quiet~ -v,--verbose~ --features= --all-features --no-default-features -p,--package= --bin= --example= --test= --target= --manifest-path= -j,--jobs= --locked --offline --frozen --git= --branch= --tag= --version= --path= --root= --force -f --workspace --target-dir=',
  rclone:
    '-n,--dry-run -P,--progress~ -v,--verbose~ -q,--quiet~ -i,--interactive --config= --include= --exclude= --filter= --transfers= --checkers= --bwlimit= --max-age= --min-age= --delete-excluded --backup-dir= -u,--update -c,--checksum --size-only --log-file= --log-level= --stats=',
  restic:
    '-r,--repo= -p,--password-file= --password-command= -q,--quiet~ -v,--verbose=?~ --tag= --exclude= --exclude-file= --host= -t,--target= --include= --keep-last= --keep-daily= --keep-weekly= --keep-monthly= --keep-yearly= --prune --dry-run -n --path= --no-lock --cache-dir= --limit-upload= --latest= --json --read-data --compression=',
  borg: '-v,--verbose~ --progress~ --stats~ -s --list~ -p --info~ -e,--encryption= -C,--compression= --exclude= --exclude-from= --keep-daily= --keep-weekly= --keep-monthly= --keep-yearly= --keep-hourly= --keep-last= -P,--prefix= -a,--glob-archives= -n,--dry-run --remote-path= --rsh= --lock-wait= --one-file-system -x --patterns-from= --json --show-rc~',
  'virsh|virt-install':
    '-c,--connect= -q,--quiet~ -r,--readonly --all --inactive --name= --persistent --config --live --current --file= --title --remove-all-storage --nvram --snapshots-metadata --ram= --memory= --vcpus= --disk= --cdrom= --location= -l= --os-variant= --osinfo= --network= -w= --graphics= --import --noautoconsole --extra-args= -x= --boot= --machine= --force --graceful --mode= --pxe --console=',
  'ansible|ansible-playbook':
    '-i,--inventory= -m,--module-name= -a,--args= -b,--become -K,--ask-become-pass -k,--ask-pass -u,--user= -l,--limit= -e,--extra-vars= -C,--check -D,--diff -t,--tags= --skip-tags= -f,--forks= -v,--verbose~ --syntax-check --list-hosts --list-tasks --list-tags --step --start-at-task= --become-user= --private-key= --vault-password-file= --ask-vault-pass',
  terraform:
    '-auto-approve -var= -var-file= -out= -target= -destroy -input= -chdir= -upgrade -refresh= -lock= -no-color~',
  route: '-n~ -e~ -v~ -A= -4 -6 -F -C --inet --inet6',
  ifconfig: '-a -s -v~',
  'nmap|masscan':
    '-p= -sS -sT -sU -sV -sn -sP -O -A -Pn -n -T4 -T5 -T3 -oN= -oX= -oG= -oA= -v~ -vv~ -iL= --open --top-ports= --script= -6 -F -e= -R --rate=',
  tcpdump:
    '-i,--interface= -n~ -nn~ -w= -r= -c= -s= -A -X -XX -e -v~ -vv~ -vvv~ -q -t -tttt -l -U -C= -G= -W= -F= -Z= -D,--list-interfaces -p -E= -Q= -y= -z= -tt -ttt -S -K -L -O -B= --immediate-mode -j= -T= -V= -#',
  traceroute: '-n~ -m= -w= -q= -p= -I -T -U -4 -6 -i= -s= -f= -N= -F -A',
  'nc|ncat|netcat': '-l -v~ -z -u -w= -p= -k -n~ -4 -6 -e= -c= -s= -q= -N -U -x= -X= -i= -t -b -C -d -D -h',
  nmcli:
    '-t,--terse~ -p,--pretty~ -f,--fields= -m,--mode= -c,--colors=~ -e,--escape= -a,--ask -s,--show-secrets -w,--wait= -g,--get-values= -o,--overview -n,--nocheck',
  resolvectl:
    '-4 -6 -i,--interface= -p,--protocol= -t,--type= -c,--class= --cache= --no-pager~ --legend=~ --json= --zone= --synthesize= --raw=?',
  'restorecon|chcon|semanage|setsebool':
    '-R,-r,--recursive -v~ -F -n -P -a,--add -d,--delete -m,--modify -l,--list -t,--type= -p,--proto= -u,--user= --reference= -e= -s= -N',
  'update-alternatives':
    '--install --remove --remove-all --set --auto --config --display --query --list --all --get-selections --slave --quiet~ --force --verbose~',
  'update-rc.d': '-f -n',
  'grub-install':
    '--target= --efi-directory= --boot-directory= --bootloader-id= --recheck --removable --root-directory= --force --no-floppy --modules= --no-nvram --uefi-secure-boot -v~',
  'update-initramfs': '-u -c -d -k= -v~ -b= -t',
  'base32|base64': '-d,--decode -w,--wrap= -i,--ignore-garbage',
  'md5sum|sha1sum|sha224sum|sha256sum|sha384sum|sha512sum|cksum|b2sum':
    '-c,--check -b,--binary -t,--text -z,--zero --ignore-missing --quiet~ --status --strict -w,--warn --tag -a,--algorithm= -l,--length=',
  split:
    '-b,--bytes= -l,--lines= -n,--number= -d,--numeric-suffixes=? -a,--suffix-length= -C,--line-bytes= --additional-suffix= --filter= -x --verbose~ -e -t= -u',
  logger:
    '-t,--tag= -p,--priority= -s,--stderr -f,--file= -n,--server= -P,--port= -T,--tcp -d,--udp -i --id=? -u,--socket= -e -z -S,--size= --no-act --rfc5424=? --rfc3164 --journald=?',
  logrotate: '-f,--force -d,--debug -v,--verbose~ -s,--state= -m,--mail= -l,--log=',
  setfacl:
    '-m,--modify= -x,--remove= -R,--recursive -b,--remove-all -k,--remove-default -d,--default -M,--modify-file= -X,--remove-file= --set= --set-file= -n,--no-mask --mask --restore= --test -L,--logical -P,--physical',
  chattr: '-R -V~ -f -v= -p= +i -i +a -a',
  losetup:
    '-f,--find -a,--all -d,--detach= -D,--detach-all -P,--partscan -r,--read-only -o,--offset= --sizelimit= -s --show -j,--associated= -l,--list -c,--set-capacity= -O,--output= -n,--noheadings -b,--sector-size= -L,--nooverlap -v,--verbose~ --direct-io=? -J,--json --raw',
  'wg|wg-quick': '--help',
  ethtool:
    '-i,--driver= -k,--show-features,--show-offload= -K,--features,--offload -s,--change -S,--statistics= -a,--show-pause= -A,--pause -c,--show-coalesce= -C,--coalesce -g,--show-ring= -G,--set-ring -l,--show-channels= -L,--set-channels -p,--identify= -m,--module-info= -P,--show-permaddr= -t,--test= -r,--negotiate= -E,--change-eeprom -e,--eeprom-dump= -d,--register-dump= -x= -X= -n= -N= -f,--flash= -T,--show-time-stamping= --set-eee --show-eee=',
  virsh:
    '-c,--connect= -q,--quiet~ -r,--readonly --all --inactive --persistent --config --live --current --title --remove-all-storage --nvram --snapshots-metadata --undefine --force --graceful --mode= --domain= --file= --source= --target= --disk-only --atomic --no-metadata',
}

const byCommand = new Map<string, string>(
  Object.entries(optionTable).flatMap(([keys, line]) =>
    keys.split('|').map((key): [string, string] => [key, line]),
  ),
)
const known = new Map<string, OptionRules>()

/** Whether the table knows the options of a command. */
export const hasRules = (name: string): boolean => byCommand.has(name)

/**
 * The rules of a command, with those of its subcommand where it has some.
 * @param subcommand null where it is not known yet
 */
export function optionRulesOf(name: string, subcommand: string | null = null): OptionRules {
  const key = subcommand === null ? name : `${name} ${subcommand}`
  const before = known.get(key)
  if (before) return before
  const lines = [byCommand.get(name), subcommand === null ? undefined : byCommand.get(key)]
  const line = lines.filter((one) => one !== undefined).join(' ')
  const rules = line === '' ? noRules : toOptionRules(line)
  known.set(key, rules)
  return rules
}
