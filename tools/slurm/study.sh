#!/usr/bin/env bash
# Copyright 2026 The Poise founders. Licence: Apache-2.0.
# One shard of a study for each task of a Slurm job array; docs/cluster.md goes through it step by step.
#   sbatch --array=1-8 tools/slurm/study.sh spread jobs/drilling-stand.toml -n 10000
#   sbatch --array=1-8 tools/slurm/study.sh faults jobs/drilling-stand.toml --pairs
# From the environment: POISE_PROGRAM, the program; POISE_STUDY, what the files' names begin with; POISE_SHARDS, of how many
# shards the study is, where fewer tasks than that are submitted: POISE_SHARDS=8 sbatch --array=3 ...
#
# To be fitted to the cluster: cores and memory of a task, its longest time, a partition or an account if one must be named.
#SBATCH --cpus-per-task=4
#SBATCH --mem-per-cpu=500M
#SBATCH --time=04:00:00
#
# To be left: a minute before the time is up the task stops in good order and goes back into the queue; one that loses its
# node is queued again too. Either goes on where it stopped.
#SBATCH --signal=B:USR1@60
#SBATCH --requeue
#SBATCH --open-mode=append
#SBATCH --job-name=poise-study
#SBATCH --output=%x-%A_%a.log
set -euo pipefail

most_starts=50 # of one task: it must not go round for ever where its time is too short for a single run

fail() {
  echo "study.sh: $1" >&2
  exit 2
}

kind=${1:-} job=${2:-}
[[ $kind == spread || $kind == faults ]] || fail "begin with spread or faults, then the job: study.sh spread JOB -n 10000"
[[ $job == *.toml && -f $job ]] || fail "there is no job file \"$job\" in $PWD"
shift 2
for option in "$@"; do
  case ${option%%=*} in
    --file | --shard | --resume | --anew | --sample | --csv)
      fail "$option does not go with shards: each task has its own file, and goes on where it stopped" ;;
  esac
done

[ -n "${SLURM_ARRAY_TASK_ID:-}" ] || fail "this is for a job array: sbatch --array=1-8 $0 $kind $job"
shards=${POISE_SHARDS:-$SLURM_ARRAY_TASK_COUNT}
shard=$SLURM_ARRAY_TASK_ID
if [ -z "${POISE_SHARDS:-}" ]; then
  shard=$((SLURM_ARRAY_TASK_ID - SLURM_ARRAY_TASK_MIN + 1))
  ((shards == SLURM_ARRAY_TASK_MAX - SLURM_ARRAY_TASK_MIN + 1)) ||
    fail "the array has gaps: say of how many shards the study is, POISE_SHARDS=8 sbatch ..."
fi
((shard >= 1 && shard <= shards)) || fail "there is no shard $shard of $shards"
task=${SLURM_ARRAY_JOB_ID}_$SLURM_ARRAY_TASK_ID
file=${POISE_STUDY:-${job%.toml}.$kind}.shard-$shard-of-$shards.studies

poise=${POISE_PROGRAM:-build/release/poise}
[ -x "$poise" ] || poise=$(command -v poise) ||
  fail "no program build/release/poise in $PWD and no poise on the path: say where, POISE_PROGRAM=/opt/poise/bin/poise sbatch ..."

# Poise uses every core that it is allowed. Where Slurm gives out cores without holding tasks to them, the task holds itself
# to those that Slurm counts as its own. Their numbers are Slurm's; what matters is that no two tasks have the same.
here=() cores="$SLURM_CPUS_ON_NODE cores"
if [ "$(env -u OMP_NUM_THREADS -u OMP_THREAD_LIMIT nproc)" -gt "$SLURM_CPUS_ON_NODE" ]; then
  own=$(scontrol show job --details --oneliner "$task" | sed -n 's/.* CPU_IDs=\([0-9,-]*\).*/\1/p')
  if [ -n "$own" ] && taskset -c "$own" true; then here=(taskset -c "$own") cores="cores $own"; fi
fi

child=
asked=
stop() {
  asked=$1
  if [ -n "$child" ]; then kill -TERM "$child" 2>/dev/null || true; fi
}
trap 'stop "its time is nearly up"' USR1
trap 'stop "it was told to"' TERM

echo "shard $shard of $shards on $cores of $(hostname), start $((${SLURM_RESTART_COUNT:-0} + 1)) of task $task"
echo "poise $kind $job $* --shard $shard/$shards --file $file"
"${here[@]}" "$poise" "$kind" "$job" "$@" --shard "$shard/$shards" --file "$file" --resume &
child=$!
[ -z "$asked" ] || kill -TERM "$child"
status=0
wait "$child" || status=$?
while kill -0 "$child" 2>/dev/null; do wait "$child" || true; done # a signal ends a wait before the program has ended
[ -z "$asked" ] || { wait "$child" && status=0 || status=$?; }

if [ -n "$asked" ]; then
  echo "shard $shard of $shards stopped since $asked; what is done is kept in $file"
  if [ "$asked" = "its time is nearly up" ]; then
    [ "${SLURM_RESTART_COUNT:-0}" -lt "$most_starts" ] || fail "started $((SLURM_RESTART_COUNT + 1)) times and not done: give it more time, or more shards"
    echo "back into the queue"
    scontrol requeue "$task" || fail "Slurm does not take it back: submit the same line again, it goes on"
  fi
  exit 143
fi
# 1 says that something breaks: the shard is done all the same.
if [ "$status" -le 1 ]; then
  echo "shard $shard of $shards is done"
  exit 0
fi
echo "shard $shard of $shards was lost, the program ended with $status; what is done is kept in $file"
exit "$status"
