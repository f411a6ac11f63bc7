/**
 * The check of an exported journal as a POSIX shell script (IEEE Std 1003.1), with sha256sum. It does what `checkFiles`
 * does, and makes journal.md anew as `journalText` does; a test holds them together.
 */

// The sign § stands for $, which would begin a placeholder here.
const script = String.raw`#!/bin/sh
# Checks this folder: that every seal follows the one before it, that every text is the one that was sealed, and that
# journal.md says what they say. It writes nothing. Needs a POSIX shell, sha256sum, awk, find, grep, sed, sort and xargs.
#
#   sh check.sh                  checks the folder
#   sh check.sh NUMBER SHA256    also checks that this head, noted earlier, stands in it
LC_ALL=C
export LC_ALL
cd "§(dirname "§0")" || exit 2

broken() {
  printf 'BROKEN: %s\n' "§1" >&2
  exit 1
}

# Sets value to the string that stands behind a name in the body; empty where there is none.
find_string() {
  value=
  case §body in
    *"\"§1\":\""*)
      value=§{body#*"\"§1\":\""}
      value=§{value%%\"*}
      ;;
  esac
}

# Sets next to what is left of the body behind its next digest, and digest and name to what it is and stands for.
find_digest() {
  case §next in
    *'":{"sha256":"'*) ;;
    *) return 1 ;;
  esac
  passed=§{next%%'":{"sha256":"'*}
  name=§{passed##*\"}
  next=§{next#*'":{"sha256":"'}
  digest=§{next%%\"*}
}

# 1. No file was changed, added or removed since SHA256SUMS was written.
made=§(find . -type f ! -path ./SHA256SUMS | sed 's,^\./,,' | sort | xargs sha256sum | sha256sum)
[ "§made" = "§(sha256sum < SHA256SUMS)" ] ||
  broken 'a file was changed, added or removed since SHA256SUMS was written; sha256sum -c SHA256SUMS names it'

# 2. Every seal follows the one before it.
before=0000000000000000000000000000000000000000000000000000000000000000
number=0
late=0
texts=0
named=0
noted=no
missing=
struck=' '
while read -r hash path; do
  case §path in
    texts/*)
      [ "§path" = "texts/§hash.txt" ] || broken "§path is not the text that its name says"
      texts=§((texts + 1))
      ;;
    blobs/*) [ "§path" = "blobs/§hash" ] || broken "§path is not the file that its name says" ;;
    seals/*)
      number=§((number + 1))
      padded=0000000000§number
      while [ §{#padded} -gt 10 ]; do padded=§{padded#0}; done
      [ "§path" = "seals/§padded.json" ] || broken "seal §number is not there"
      body=
      IFS= read -r body < "§path"
      case §body in
        '{"before":"'"§before"'","late":'[ft]*',"number":'"§number"',"of":{"id":"'*) ;;
        *) broken "seal §number does not follow the seal before it" ;;
      esac
      case §body in *'","late":true,"number":'*) late=§((late + 1)) ;; esac
      before=§hash
      [ "§{1-}" = "§number" ] && [ "§{2-}" = "§hash" ] && noted=yes
      next=§body
      while find_digest; do
        if [ -f "texts/§digest.txt" ]; then named=§((named + 1)); else missing="§missing §digest"; fi
      done
      # What a strike took: the digest that can be checked no more, and the one that holds since.
      case §body in
        *'"taken":[{'*)
          rest=§{body#*'"taken":['}
          while
            case §rest in '{"field":"'*) true ;; *) false ;; esac
          do
            gone=§{rest#*'"gone":"'}
            gone=§{gone%%\"*}
            now=§{rest#*'"now":{"sha256":"'}
            now=§{now%%\"*}
            item=§{rest%%\}*}
            case §item in *'"matched":true'*) ;; *) broken "a text was changed before seal §number struck it" ;; esac
            [ -f "texts/§gone.txt" ] && broken "the salt of a text that seal §number struck is still there"
            struck="§struck§gone=§number:§now "
            rest=§{rest#*'"seal":'}
            rest=§{rest#*\}}
            rest=§{rest#,}
          done
          ;;
      esac
      ;;
  esac
done < SHA256SUMS
IFS= read -r head < HEAD.txt
[ "§head" = "§number §before" ] || broken 'HEAD.txt does not name the last seal'

# 3. Every text is there, or a strike names it; and there is no other.
for digest in §missing; do
  case §struck in
    *" §digest="*) ;;
    *) broken "the text §digest is missing, and no strike says why" ;;
  esac
done
[ "§texts" = "§named" ] || broken 'there is a text that no seal names'

# 4. journal.md says what the seals and the texts say.
# No other line begins with @; print_words puts the words in its place, all in one process.
print_words() {
  awk '
    /^@[0-9a-f]+§/ {
      file = "texts/" substr(§0, 2) ".txt"
      getline line < file
      while ((getline line < file) > 0) print "    " line
      close(file)
      next
    }
    { print }
  '
}

print_reference() {
  case §entries in
    *" §2="*)
      reference=§{entries#*" §2="}
      printf '%s %s' "§1" "§{reference%% *}"
      ;;
    *) printf '%s' "§1 without a seal" ;;
  esac
}

print_fact() {
  find_string "§2"
  [ -z "§value" ] || printf -- '- %s: %s\n' "§1" "§value"
}

print_blob() {
  if [ -f "blobs/§1" ]; then printf -- '- Picture or file: blobs/%s\n' "§1"
  else printf -- '- Picture or file: %s, not in this folder\n' "§1"; fi
}

print_blobs() {
  find_string blob
  [ -z "§value" ] || print_blob "§value"
  list=§{body#*'"blobs":['}
  list=§{list%%]*}
  while
    case §list in \"*) true ;; *) false ;; esac
  do
    list=§{list#\"}
    print_blob "§{list%%\"*}"
    list=§{list#*\"}
    list=§{list#,}
  done
}

print_entry() {
  find_string kind
  printf 'Entry: %s, %s\n' "§value" "§moment"
  print_fact Happened happened
  find_string under
  [ -z "§value" ] || { printf -- '- Under: ' && print_reference entry "§value" && echo; }
  case §body in
    *'"exitCode":'[0-9]*)
      value=§{body#*'"exitCode":'}
      printf -- '- Exit code: %s\n' "§{value%%,*}"
      ;;
  esac
  print_fact Started started
  print_fact Ended ended
  case §body in *'"revision":null'*) ;; *) print_blobs ;; esac
}

print_mark() {
  says=§{body#*'"says":'}
  find_string entry
  printf 'Set on ' && print_reference entry "§value"
  printf ', %s\n- Says: %s\n' "§moment" "§{says%\},\"sealed\":*}"
}

print_strike() {
  printf 'Struck out, %s\n' "§moment"
  list=§{body#*'"emptied":['}
  list=§{list%%]*}
  while
    case §list in \"*) true ;; *) false ;; esac
  do
    list=§{list#\"}
    printf -- '- Emptied: %s\n' "§{list%%\"*}"
    list=§{list#*\"}
    list=§{list#,}
  done
  rest=§{body#*'"taken":['}
  while
    case §rest in '{"field":"'*) true ;; *) false ;; esac
  do
    field=§{rest#'{"field":"'}
    rest=§{rest#*'"seal":'}
    printf -- '- In seal %s: %s\n' "§{rest%%\}*}" "§{field%%\"*}"
    rest=§{rest#*\}}
    rest=§{rest#,}
  done
}

print_heading() {
  find_string table
  table=§value
  find_string moment
  moment=§value
  printf '## %s. ' "§number"
  case §table in
    entries) print_entry ;;
    revisions)
      find_string node
      printf 'Amendment of ' && print_reference entry "§value"
      printf ', %s\n' "§moment"
      print_blobs
      ;;
    withdrawals)
      find_string entry
      print_reference Entry "§value"
      case §body in
        *'"withdrawn":true'*) printf ' withdrawn, %s\n' "§moment" ;;
        *) printf ' brought back, %s\n' "§moment" ;;
      esac
      ;;
    marks) print_mark ;;
    strikes) print_strike ;;
  esac
  case §body in
    *'","late":true,"number":'*)
      value=§{body##*'"sealed":"'}
      printf -- '- Sealed late: %s\n' "§{value%%\"*}"
      ;;
  esac
  echo
}

print_texts() {
  next=§body
  was=
  while find_digest; do
    case §passed in *'"was":{'*) was=' before' ;; esac
    [ "§table" = strikes ] && [ "§name" = now ] && continue
    by=
    while [ ! -f "texts/§digest.txt" ]; do
      case §struck in
        *" §digest="*) ;;
        *) broken "the text §digest is missing, and no strike says why" ;;
      esac
      digest=§{struck#*" §digest="}
      digest=§{digest%% *}
      by="§{by:+§by, }seal §{digest%%:*}"
      digest=§{digest#*:}
    done
    if [ -z "§by" ]; then printf '%s:\n\n' "§name§was"
    else
      grep -q '█' "texts/§digest.txt" || broken "a text is said to be struck out by §by, but shows no mark of it"
      printf '%s, struck out in part by %s:\n\n' "§name§was" "§by"
    fi
    printf '@%s\n\n' "§digest"
  done
}

print_journal() {
  printf '# Journal\n\nThis is what the seals and the texts beside it say, in their order.\n\n'
  entries=' '
  number=0
  while read -r hash path; do
    case §path in seals/*) ;; *) continue ;; esac
    number=§((number + 1))
    body=
    IFS= read -r body < "§path"
    find_string id
    case §body in *'","table":"entries"},"project":"'*) entries="§entries§value=§number " ;; esac
    print_heading
    print_texts
  done < SHA256SUMS
}
[ "§(print_journal | print_words | sha256sum)" = "§(sha256sum < journal.md)" ] ||
  broken 'journal.md does not say what the seals and the texts say'

if [ §# -gt 0 ] && [ "§noted" = no ]; then
  broken "the head §1 §{2-} is not in this journal: it was made anew, or cut off before that head"
fi
printf 'OK: %s seals hold, %s of them made late. The head is\n%s\n' "§number" "§late" "§head"
printf 'Compare it with a head that was noted elsewhere: only that shows that the whole was not made anew.\n'
`

/** The content of check.sh. */
export const checkScript = script.replaceAll('§', '$')
