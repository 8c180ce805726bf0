"""What a program and the programs that it started use, as Linux tells it."""

import os
import pathlib
import re


def in_real_time():
    """Has this program, and what it starts, go before all others, where that
    is allowed. Gives whether it is."""
    try:
        os.sched_setscheduler(0, os.SCHED_RR, os.sched_param(1))
    except OSError:
        return False
    return True


def family(ancestor):
    """A process and all that descend from it."""
    parents = {}
    for status in pathlib.Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = status.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        parents[int(status.parent.name)] = int(fields[1])
    found, grows = {ancestor}, True
    while grows:
        more = {own for own, parent in parents.items() if parent in found} - found
        found, grows = found | more, bool(more)
    return found


def peak_memory(ancestor):
    """The most bytes that each process held at a time, summed."""
    total = 0
    for process in family(ancestor):
        try:
            status = pathlib.Path(f"/proc/{process}/status").read_text()
        except OSError:
            continue
        peak = re.search(r"VmHWM:\s*(\d+) kB", status)
        total += int(peak[1]) * 1024 if peak else 0
    return total


def processor_time(ancestor):
    """Seconds of processor that each thread has used so far."""
    used = {}
    for process in family(ancestor):
        for thread in pathlib.Path(f"/proc/{process}/task").glob("*/schedstat"):
            try:
                used[thread] = int(thread.read_text().split()[0]) / 1e9
            except OSError:
                continue
    return used


def processor_time_between(before, after):
    """Seconds of processor used from one look to another."""
    return sum(seconds - before.get(thread, 0) for thread, seconds in after.items())
