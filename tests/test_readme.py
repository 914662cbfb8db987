"""What the README shows is what a reader gets."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

import planlint

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block(after: str) -> str:
    """The fenced block that follows these words."""
    fenced = README.split(after, 1)[1].split("```", 2)[1]
    return fenced.split("\n", 1)[1]


def printed(call: str) -> str:
    """What `planlint CALL` prints."""
    return subprocess.run(
        [sys.executable, "-m", "planlint", *shlex.split(call)],
        capture_output=True,
        encoding="utf-8",
        env={"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", "HOME": str(Path.home())},
        cwd=ROOT,
        check=False,
    ).stdout


def test_the_shown_output_is_what_the_first_command_prints() -> None:
    [call] = re.findall(r"planlint (audit .*)", README.split("Run the tests", 1)[0])[-1:]
    shown = block("<!-- part of what the first command prints -->")
    assert len(shown.splitlines()) > 10
    assert shown in printed(call)


def test_the_shown_cutting_layout_is_what_the_command_prints() -> None:
    [call] = re.findall(r"<!-- part of what `planlint (.*)` prints -->", README)
    shown = block(f"`planlint {call}` prints -->")
    assert len(shown.splitlines()) > 10
    assert shown in printed(call)


def test_every_command_stands_in_the_readme() -> None:
    usage = printed("--help").split("COMMAND", 2)[2]
    commands = re.findall(r"^    ([a-z]+) ", usage, re.MULTILINE)
    assert len(commands) > 5
    assert [name for name in commands if f"planlint {name}" not in README] == []


def test_the_first_plan_of_the_readme_is_sound() -> None:
    audit = planlint.audit(block("This is whole, and already worth checking:"))
    assert [finding.rule for finding in audit.findings if finding.severity != "hint"] == []
    assert audit.not_checked


def test_every_link_leads_somewhere() -> None:
    links = re.findall(r"\]\(([^)]+)\)", README)
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_ci_calls_the_test_command_of_the_readme() -> None:
    script = r"""awk '/<!-- test command -->/{found=1} found && /^python3 /{print; exit}' README.md"""
    assert script in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    made = subprocess.run(script, shell=True, capture_output=True, text=True, cwd=ROOT, check=True)
    assert made.stdout.strip() == block("<!-- test command -->").strip()
    assert "pytest" in made.stdout
