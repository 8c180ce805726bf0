"""Reading cases, and telling of those that differ."""

import json
import sys


def run(check):
    """Runs `check`, which gives the differences of a case, over a file of cases."""
    count, different = 0, 0
    with open(sys.argv[1], encoding="utf-8") as lines:
        for line in lines:
            case = json.loads(line)
            count += 1
            differences = list(check(case))
            if differences:
                different += 1
                if different <= 5:
                    print(f"case {count}: {'; '.join(differences)}\n  {line.strip()}")
    if different:
        sys.exit(f"{different} of {count} cases differ")
    print(f"{count} cases agree")
