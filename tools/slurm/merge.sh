#!/usr/bin/env bash
# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# Puts the shards of a study together, once its job array has ended, and prints the answer; takes what study.sh took:
#   sbatch --dependency=afterany:ID tools/slurm/merge.sh spread jobs/drilling-stand.toml -n 10000
# It can as well be run by hand, without Slurm. POISE_PROGRAM, POISE_STUDY and POISE_SHARDS as in study.sh.
#SBATCH --time=00:30:00
#SBATCH --open-mode=append
#SBATCH --job-name=poise-merge
#SBATCH --output=%x-%j.log
set -euo pipefail

fail() {
  echo "merge.sh: $1" >&2
  exit 2
}

kind=${1:-} job=${2:-}
[[ $kind == spread || $kind == faults ]] || fail "begin with spread or faults, then the job, as for study.sh"
[[ $job == *.toml && -f $job ]] || fail "there is no job file \"$job\" in $PWD"
shift 2
study=${POISE_STUDY:-${job%.toml}.$kind}

poise=${POISE_PROGRAM:-build/release/poise}
[ -x "$poise" ] || poise=$(command -v poise) ||
  fail "no program build/release/poise in $PWD and no poise on the path: say where, POISE_PROGRAM=/opt/poise/bin/poise sbatch ..."

shards=${POISE_SHARDS:-}
if [ -z "$shards" ]; then
  shopt -s nullglob
  for file in "$study".shard-*-of-*.studies; do
    of=${file##*-of-}
    of=${of%.studies}
    [ "$of" = "${shards:=$of}" ] ||
      fail "files of $shards and of $of shards lie side by side: say which are meant, POISE_SHARDS=$of, or delete the others"
  done
fi
[ -n "$shards" ] || fail "there is no file $study.shard-K-of-N.studies in $PWD: has the array been run, and from here?"
files=() lacking=()
for ((shard = 1; shard <= shards; ++shard)); do
  file=$study.shard-$shard-of-$shards.studies
  if [ -f "$file" ]; then files+=("$file"); else lacking+=("$shard"); fi
done
[ ${#lacking[@]} -eq 0 ] || fail "no file of shard ${lacking[*]} of $shards: submit the same study again, what is done is not done again"

# A merge makes a new file, so that the one of an earlier merge stays whole until this one is.
new=$study.merging-$$.studies
trap 'rm -f "$new"' EXIT
status=0
"$poise" merge -o "$new" "${files[@]}" || status=$?
[ "$status" -le 1 ] || exit "$status"
mv -f "$new" "$study.studies"
if [ "$status" -eq 1 ]; then # runs are lacking, and the program said which
  echo "$study.studies has what is there. Submit the same study again: what is done is not done again. Or let this machine do the rest:"
  echo "poise $kind $job $* --file $study.studies --resume"
  exit 1
fi
status=0
"$poise" "$kind" "$job" "$@" --file "$study.studies" --resume || status=$?
[ "$status" -le 1 ] || exit "$status" # 1 says that something breaks: that is an answer too
echo "The study is in $study.studies; this shows it again: poise $kind $job $* --file $study.studies --resume"
