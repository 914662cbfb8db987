"""The two ratios the project promises, measured side by side on one machine: `python -m tests.bench.speed`.

1. Cold: `planlint audit PLAN` from an installed wheel, against `python -c "import lark"` of the same
   environment. Promise: at most 2.5.
2. In process: the whole audit of a plan's text, against lark's own parse of the same text, split into logical
   lines as the grammar needs it, with positions (the stock contextual lexer, trees). Promise: at most 3.

Runs alternate, and each is compared with its neighbour, so that a machine that is busy, or changes its speed, slows
both; the median of these ratios counts. In process it is processor time: what others run meanwhile is not counted in.
"""

import os
import subprocess
import sys
import tempfile
import time
import venv
from collections.abc import Callable
from pathlib import Path
from statistics import median

from lark import Lark

from planlint.auditing import audit_text
from planlint.read.lines import logical_lines
from planlint.read.notation import start_rules
from planlint.resources import data
from planlint.source import Source

ROOT = Path(__file__).parents[2]
PLAN = ROOT / "tests" / "bench" / "twenty-five-parts.plan"
ROUNDS = 15  # of starting both commands
QUICK_ROUNDS = 60  # of audits within the process


def side_by_side(
    one: Callable[[], object], other: Callable[[], object], clock: Callable[[], float], rounds: int
) -> tuple[float, float, float]:
    """The median seconds of each by this clock, their runs alternating, and the median ratio of neighbouring runs."""
    one(), other()
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(rounds):
        for run, kept in zip((one, other), times, strict=True):
            start = clock()
            run()
            kept.append(clock() - start)
    ratios = [first / second for first, second in zip(*times, strict=True)]
    return median(times[0]), median(times[1]), median(ratios)


def in_process() -> float:
    """The whole audit against lark's parse of the same text."""
    text = PLAN.read_text(encoding="utf-8")
    grammar = data("grammar", "plan.lark").decode("utf-8")
    parser = Lark(
        grammar, parser="lalr", start=start_rules(grammar), keep_all_tokens=True, propagate_positions=True
    )

    def lark_parse() -> None:
        """From the text to trees: the grammar reads logical lines, each by its section's start rule."""
        section = ""
        for line in logical_lines(Source(text)):
            section = line.text.split()[0] if line.is_head else section
            parser.parse(line.text, "head" if line.is_head else f"{section}_line")

    audit, parse, ratio = side_by_side(lambda: audit_text(text), lark_parse, time.process_time, QUICK_ROUNDS)
    print(
        f"in process: audit {audit * 1000:.1f} ms, lark {parse * 1000:.1f} ms, ratio {ratio:.2f} (at most 3)"
    )
    return ratio


def cold_start() -> float:
    """The installed command against `import lark` of the same environment."""
    with tempfile.TemporaryDirectory() as folder:
        venv.create(folder, with_pip=True)
        python = Path(folder) / "bin" / "python"
        # Without this variable unset, own modules would be compiled at every start.
        environment = {
            k: v for k, v in os.environ.items() if k not in ("PYTHONDONTWRITEBYTECODE", "PYTHONPATH")
        }
        environment["XDG_CACHE_HOME"] = str(Path(folder) / "cache")
        subprocess.run([python, "-m", "pip", "install", "--quiet", str(ROOT)], check=True, env=environment)
        command = Path(folder) / "bin" / "planlint"

        def run(*call: str | Path) -> None:
            subprocess.run(call, cwd=folder, env=environment, stdout=subprocess.DEVNULL, check=False)

        audit, bare, ratio = side_by_side(
            lambda: run(command, "audit", PLAN),
            lambda: run(python, "-c", "import lark"),
            time.perf_counter,
            ROUNDS,
        )
    times = f"audit {audit * 1000:.0f} ms, import lark {bare * 1000:.0f} ms"
    print(f"cold start: {times}, ratio {ratio:.2f} (at most 2.5)")
    return ratio


if __name__ == "__main__":
    ratios = (in_process(), cold_start())
    sys.exit(ratios[0] > 3 or ratios[1] > 2.5)
