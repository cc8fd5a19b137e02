# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A whole Slurm on this host for as long as a test takes: its own folder, key, sockets, ports and state; as root or as anybody.

It has two cores and binds nobody to them, so that a task has to hold itself to its own.
"""
import os
import pathlib
import pwd
import shutil
import signal
import socket
import subprocess
import tempfile
import time

from records import wait_for

NEEDED = ("munged", "slurmctld", "slurmd", "sbatch", "scancel", "scontrol", "sinfo", "squeue")
PATH = os.environ.get("PATH", "/usr/bin:/bin") + ":/usr/sbin:/sbin"  # where Debian has daemons, and not everybody's path
CONFIGURATION = """\
ClusterName=poise
SlurmctldHost={host}(127.0.0.1)
SlurmctldPort={controller_port}
SlurmdPort={node_port}
SlurmUser={user}
SlurmdUser={user}
AuthType=auth/munge
AuthInfo=socket={folder}/munge.socket
CredType=cred/munge
StateSaveLocation={folder}/state
SlurmdSpoolDir={folder}/spool
SlurmctldPidFile={folder}/slurmctld.pid
SlurmdPidFile={folder}/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
JobCompType=jobcomp/none
MpiDefault=none
SwitchType=switch/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SchedulerParameters=sched_interval=1,sched_min_interval=0,bf_interval=1
SlurmdParameters=config_overrides
ReturnToService=2
KillWait=5
MinJobAge=3600
NodeName={host} NodeAddr=127.0.0.1 CPUs=2 RealMemory=4000 State=UNKNOWN
PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP
"""


class CannotStart(Exception):
    """Slurm is not here, or does not run here; why, in a sentence."""


def free_ports(count):
    """Taken and let go again: nobody is given them for a while."""
    sockets = [socket.socket() for _ in range(count)]
    for each in sockets:
        each.bind(("127.0.0.1", 0))
    ports = [each.getsockname()[1] for each in sockets]
    for each in sockets:
        each.close()
    return ports


class Slurm:
    def __enter__(self):
        lacking = [each for each in NEEDED if not shutil.which(each, path=PATH)]
        if lacking:
            raise CannotStart(f"{', '.join(lacking)} not installed (Debian: slurm-wlm, munge)")
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="poise-slurm-"))
        self.daemons = []
        try:
            self.start()
        except BaseException:
            self.stop()
            raise
        return self

    def __exit__(self, *_):
        self.stop()

    def start(self):
        controller_port, node_port = free_ports(2)
        folder = self.folder
        folder.chmod(0o755)
        for each in ("state", "spool"):
            (folder / each).mkdir()
        (folder / "munge.key").touch(0o600)
        (folder / "munge.key").write_bytes(os.urandom(128))
        (folder / "slurm.conf").write_text(CONFIGURATION.format(
            host=socket.gethostname().split(".")[0], controller_port=controller_port, node_port=node_port,
            user=pwd.getpwuid(os.getuid()).pw_name, folder=folder))
        self.environment = {name: value for name, value in os.environ.items()
                            if not name.startswith(("SLURM", "SBATCH", "SQUEUE", "SINFO", "POISE"))}
        self.environment.update(SLURM_CONF=str(folder / "slurm.conf"), PATH=PATH)
        self.daemon("munged", "--foreground", "--key-file=munge.key", "--socket=munge.socket", "--pid-file=munged.pid",
                    "--log-file=munged.log", "--seed-file=munge.seed", "--origin=127.0.0.1")
        self.until_alive("munged", lambda: (folder / "munge.socket").exists())
        self.daemon("slurmctld", "-D")
        self.daemon("slurmd", "-D")
        self.until_alive("Slurm", lambda: self.run("sinfo", "--noheader", "--format=%T").stdout.strip() == "idle")

    def daemon(self, name, *options):
        options = [each.replace("=mung", f"={self.folder}/mung") for each in options]
        with open(self.folder / f"{name}.out", "wb") as said:
            self.daemons.append(subprocess.Popen([shutil.which(name, path=PATH), *options], cwd=self.folder,
                                                 env=self.environment, stdin=subprocess.DEVNULL, stdout=said, stderr=said))

    def until_alive(self, what, condition):
        end = time.monotonic() + 40
        while not condition():
            dead = [pathlib.Path(each.args[0]).name for each in self.daemons if each.poll() is not None]
            if dead or time.monotonic() > end:
                lines = [line for each in sorted(self.folder.glob("*.out")) + sorted(self.folder.glob("*.log"))
                         for line in each.read_text(errors="replace").splitlines()[-15:]]
                raise CannotStart(f"{what} does not start here{', ended: ' if dead else ''}{', '.join(dead)}\n" + "\n".join(lines))
            time.sleep(0.1)

    def run(self, *words, **environment):
        return subprocess.run([str(each) for each in words], capture_output=True, text=True, check=False, cwd=self.folder,
                              env=dict(self.environment, **environment))

    def ask(self, *words, **environment):
        done = self.run(*words, **environment)
        if done.returncode != 0:
            raise AssertionError(f"{words} ended with {done.returncode}: {done.stdout}{done.stderr}")
        return done.stdout

    def job(self, number):
        """What Slurm knows of a job or a task of an array."""
        words = self.ask("scontrol", "show", "job", "--oneliner", number).splitlines()[0].split()
        return dict(each.split("=", 1) for each in words if "=" in each)

    def until(self, number, right):
        """What Slurm knows of a job once its state is right."""
        def there():
            known = self.job(number)
            return known if right(known["JobState"]) else None
        return wait_for(f"job {number}, {self.job(number)}", there)

    def until_ended(self, number):
        return self.until(number, lambda state: state not in ("PENDING", "RUNNING", "COMPLETING"))

    def requeue(self, number):
        self.ask("scontrol", "requeue", number)
        self.soon(number)

    def soon(self, number):
        """A job that was requeued begins in three seconds instead of two minutes; not in the second in which it was stopped,
        since Slurm withdraws the leave to run that was given up to then."""
        self.until(number, lambda state: state == "PENDING")
        self.ask("scontrol", "update", f"JobId={number}", "StartTime=now+3")

    def started_here(self):
        """Processes that live on what we started; each of them has the folder in its environment."""
        found = []
        for each in pathlib.Path("/proc").glob("[0-9]*"):
            try:
                if f"SLURM_CONF={self.folder}/".encode() in (each / "environ").read_bytes():
                    found.append(int(each.name))
            except OSError:
                pass  # it has ended, or is not ours
        return found

    def stop(self):
        for each in reversed(self.daemons):
            each.send_signal(signal.SIGTERM)
        for each in self.daemons:
            try:
                each.wait(5)
            except subprocess.TimeoutExpired:
                each.kill()
                each.wait()
        for number in self.started_here():
            os.kill(number, signal.SIGKILL)
        shutil.rmtree(self.folder, ignore_errors=True)
