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
