"""What was measured, put into the README between two marks."""

import datetime
import pathlib
import platform
import re
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
README = ROOT / "README.md"


def fill(mark, said):
    """Puts a text between `<!-- mark -->` and `<!-- end of mark -->`."""
    start, end = f"<!-- {mark} -->\n", f"<!-- end of {mark} -->\n"
    before, rest = README.read_text().split(start)
    _, after = rest.split(end)
    README.write_text(f"{before}{start}\n{said}\n\n{end}{after}")


def machine():
    """What was measured on, and when: `AMD EPYC, 2 cores, Linux, Rust 1.95.0, 2026-11-25`."""
    cpu = re.search(r"model name\s*: (.*)", pathlib.Path("/proc/cpuinfo").read_text())
    cores = subprocess.check_output(["nproc"], text=True).strip()
    rust = subprocess.check_output(["rustc", "--version"], text=True).split()[1]
    name = cpu[1].strip() if cpu else platform.machine()
    return f"{name}, {cores} cores, {platform.system()}, Rust {rust}, {datetime.date.today()}"
