"""Files replaced whole or not at all."""

import os
import stat
from pathlib import Path

import pytest

from planlint.commands import keeping


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "bench.plan"
    path.write_bytes(b"old\r\n")
    return path


def test_line_ends_are_kept_as_they_are(plan: Path) -> None:
    assert keeping.keep(str(plan), "\ufeffnew\r\nend") is None
    assert plan.read_bytes() == b"\xef\xbb\xbfnew\r\nend"


def test_a_link_stays_a_link(plan: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.plan"
    link.symlink_to(plan)
    assert keeping.keep(str(link), "new") is None
    assert link.is_symlink()
    assert plan.read_text() == "new"


def test_permissions_stay(plan: Path) -> None:
    plan.chmod(0o640)
    keeping.keep(str(plan), "new")
    assert stat.S_IMODE(plan.stat().st_mode) == 0o640


@pytest.mark.parametrize("when", ["fsync", "fdopen"])
@pytest.mark.parametrize("error", [KeyboardInterrupt(), OSError(28, "No space left on device")])
def test_an_interrupt_or_a_full_disk_leaves_the_old_file_and_nothing_else(
    plan: Path, monkeypatch: pytest.MonkeyPatch, when: str, error: BaseException
) -> None:
    def fails(*_: object) -> None:
        raise error

    monkeypatch.setattr(os, when, fails)
    if isinstance(error, KeyboardInterrupt):
        with pytest.raises(KeyboardInterrupt):
            keeping.keep(str(plan), "new")
    else:
        said = keeping.keep(str(plan), "new")
        assert said is not None and "No space left on device" in said
    assert plan.read_bytes() == b"old\r\n"
    assert [each.name for each in plan.parent.iterdir()] == ["bench.plan"]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    said = keeping.keep(str(tmp_path / "nowhere" / "page.html"), "new")
    assert said is not None and "nowhere" in said


def test_a_pipe_or_a_device_is_written_to_and_never_replaced(tmp_path: Path) -> None:
    # Run as root, `-o /dev/null` put a page in its place, and every other program wrote into that.
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    try:
        assert keeping.keep(str(pipe), "new") is None
        assert os.read(reader, 10) == b"new"
    finally:
        os.close(reader)
    assert stat.S_ISFIFO(pipe.stat().st_mode)


def test_links_that_lead_in_a_circle_and_no_name_are_told(tmp_path: Path) -> None:
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    said = [
        keeping.keep(str(loop), "new"),
        keeping.keep(str(loop / "page.html"), "new"),
        keeping.keep("", "new"),
    ]
    assert None not in said and "no file is named" in str(said[2])


def test_the_plan_is_never_written_over_by_what_is_made_of_it(plan: Path, tmp_path: Path) -> None:
    # `cut PLAN -o PLAN` lost the plan: by its name, another spelling, a link and a hard link.
    link, hard = tmp_path / "link", tmp_path / "hard"
    link.symlink_to(plan)
    hard.hardlink_to(plan)
    for name in (plan, plan.parent / "." / plan.name, link, hard):
        said = keeping.put(str(name), "new", str(plan))
        assert said is not None and "is the plan itself" in said
    assert plan.read_bytes() == b"old\r\n"


def test_a_read_only_plan_is_left_alone(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # Whole files are replaced by way of their folder, which asks nobody about the file.
    monkeypatch.setattr(os, "access", lambda *_: False)
    said = keeping.keep(str(plan), "new")
    assert said is not None and "read-only" in said
    assert plan.read_bytes() == b"old\r\n"
