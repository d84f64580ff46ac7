"""Read every bomb and say what came of it: python -m tests.faults.bombs FOLDER."""

import json
import sys
from dataclasses import asdict
from pathlib import Path

from .burst import bursts

if __name__ == "__main__":
    for one in bursts(Path(sys.argv[1])):
        sys.stdout.write(json.dumps(asdict(one)) + "\n")
        sys.stdout.flush()
