#!/usr/bin/env python3
"""Checks the examples in deploy/: what the schedulers and systemd take of them, and that their numbers agree.

    python3 tests/pool/deploy.py SBATCH

The Kubernetes job is held to Kubernetes' own schema, strictly, by kubernetes-validate (from PyPI). SBATCH is Slurm's
sbatch. It knows its options and their values without a cluster: asked with --test-only and a configuration that names
a controller which isn't there, it refuses a wrong script for what is wrong with it, and a right one only for want of
the controller. That is what is asked of the example, and that a script with a wrong option is told is tried, too.
"""

import os
import pathlib
import subprocess
import sys
import tempfile

import kubernetes_validate
import yaml

DEPLOY = pathlib.Path(__file__).resolve().parents[2] / "deploy"
# The first one with all that the job asks for.
KUBERNETES = "1.33"

CLUSTER = """
ClusterName=none
SlurmctldHost=localhost
SlurmctldPort=1
AuthType=auth/none
CredType=cred/none
PluginDir={plugins}
NodeName=localhost CPUs=1
PartitionName=all Nodes=localhost Default=YES
"""
NO_CONTROLLER = "Unable to contact slurm controller"


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    check_kubernetes()
    check_slurm(pathlib.Path(sys.argv[1]).resolve())
    check_systemd()
    print("The examples in deploy/ are what Kubernetes, Slurm and systemd take")


def check_kubernetes():
    job = yaml.safe_load((DEPLOY / "kubernetes/hear.yaml").read_text())
    kubernetes_validate.validate(job, KUBERNETES, strict=True)
    wrong = {**job, "spec": {**job["spec"], "completion": 8}}
    try:
        kubernetes_validate.validate(wrong, KUBERNETES, strict=True)
    except kubernetes_validate.ValidationError:
        pass
    else:
        sys.exit("kubernetes-validate takes a field that no job has")
    spec = job["spec"]
    container = spec["template"]["spec"]["containers"][0]
    parts = {variable["name"]: variable.get("value") for variable in container["env"]}["EAVESDRAFT_PARTS"]
    if parts != str(spec["completions"]) or spec["parallelism"] > spec["completions"]:
        sys.exit(f"hear.yaml: {spec['completions']} completions, but EAVESDRAFT_PARTS is {parts}")


def check_systemd():
    """systemd-analyze warns of what it doesn't know; the program itself is not where the unit expects it."""
    unit = (DEPLOY / "systemd/eavesdraft-watch.service").read_text()
    unit = unit.replace("%h/.local/bin/eavesdraft", "/bin/true")
    told = verified(unit)
    if told:
        sys.exit(f"systemd doesn't take eavesdraft-watch.service: {told}")
    if "NoNewPrivs" not in verified(unit.replace("NoNewPrivileges", "NoNewPrivs")):
        sys.exit("systemd-analyze takes a setting that no service has")


def verified(unit):
    """What systemd-analyze says of a unit."""
    with tempfile.TemporaryDirectory(prefix="eavesdraft-systemd-") as within:
        file = pathlib.Path(within, "eavesdraft-watch.service")
        file.write_text(unit)
        command = ["systemd-analyze", "verify", "--user", "--man=no", file]
        asked = subprocess.run(command, env={**os.environ, "XDG_RUNTIME_DIR": within}, capture_output=True, text=True)
        return asked.stderr + asked.stdout


def check_slurm(sbatch):
    script = DEPLOY / "slurm/hear.sbatch"
    subprocess.run(["bash", "-n", script], check=True)
    with tempfile.TemporaryDirectory(prefix="eavesdraft-slurm-") as within:
        within = pathlib.Path(within)
        told = asked(sbatch, script, within)
        if NO_CONTROLLER not in told:
            sys.exit(f"sbatch doesn't take hear.sbatch: {told}")
        wrong = within / "wrong.sbatch"
        for line, right in ("--array=", "--arry="), ("--mem=2G", "--mem=2X"):
            wrong.write_text(script.read_text().replace(line, right))
            told = asked(sbatch, wrong, within)
            if not told or NO_CONTROLLER in told:
                sys.exit(f"sbatch takes {right}: {told}")


def asked(sbatch, script, within):
    """What sbatch says of a script, without a cluster."""
    libraries = sbatch.parents[1] / "lib"
    plugins = next(libraries.glob("*/slurm-wlm"), libraries)
    settings = within / "slurm.conf"
    settings.write_text(CLUSTER.format(plugins=plugins))
    env = {**os.environ, "SLURM_CONF": str(settings), "LD_LIBRARY_PATH": str(plugins)}
    command = [sbatch, "--test-only", script, "POOL"]
    return subprocess.run(command, env=env, capture_output=True, text=True, timeout=60).stderr.strip()


if __name__ == "__main__":
    main()
