"""The built wheel and sdist carry grammar and rules, and an installed wheel audits: not only the checkout works."""

import os
import subprocess
import sys
import sysconfig
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
DATA = [
    path.relative_to(ROOT).as_posix()
    for folder in ("grammar", "rules")
    for path in sorted((ROOT / folder).rglob("*"))
    if path.is_file()
]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built")
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", folder, ROOT],
        check=True,
        capture_output=True,
    )
    return folder


def test_the_wheel_carries_every_data_file(built: Path) -> None:
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        names = set(wheel.namelist())
    assert [name for name in DATA if f"planlint/{name}" not in names] == []


def test_the_sdist_carries_every_data_file(built: Path) -> None:
    with tarfile.open(next(built.glob("*.tar.gz"))) as sdist:
        names = {name.split("/", 1)[-1] for name in sdist.getnames()}
    assert [name for name in [*DATA, "README.md", "DEVELOPERS.md"] if name not in names] == []


def test_an_installed_wheel_audits_a_sample(built: Path, tmp_path: Path) -> None:
    """With the test environment's libraries, but planlint from the wheel alone, in a folder far from the checkout."""
    venv.create(tmp_path / "env", with_pip=True)
    python = tmp_path / "env" / "bin" / "python"
    clean = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    subprocess.run(
        [python, "-m", "pip", "install", "--quiet", "--no-deps", next(built.glob("*.whl"))],
        check=True,
        env=clean,
    )
    [packages] = (tmp_path / "env" / "lib").glob("python*/site-packages")
    (packages / "libraries.pth").write_text(sysconfig.get_path("purelib") + "\n")
    sample = ROOT / "samples" / "faulty" / "balcony-bench.plan"
    made = subprocess.run(
        [tmp_path / "env" / "bin" / "planlint", "audit", sample],
        capture_output=True,
        encoding="utf-8",
        cwd=tmp_path,
        env={**clean, "XDG_CACHE_HOME": str(tmp_path / "cache"), "PYTHONIOENCODING": "utf-8"},
        check=False,
    )
    assert made.stderr == ""
    assert made.returncode == 1
    assert "A screw that stops short" in made.stdout


def test_the_zipped_wheel_audits_too(built: Path, tmp_path: Path) -> None:
    """Straight from the zip on the path: nothing may need a real folder."""
    wheel = next(built.glob("*.whl"))
    plan = 'plan "x"\n  units in\nparts\n  a: 2 of'
    code = f"""import sys; sys.path[:0] = [{str(wheel)!r}]; sys.path += {sys.path!r}
import planlint; print(planlint.__file__, planlint.audit({plan!r}).findings[0].rule)"""
    made = subprocess.run(
        [sys.executable, "-S", "-c", code],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": "", "XDG_CACHE_HOME": str(tmp_path / "cache")},
        check=False,
    )
    assert made.stderr == ""
    assert ".whl" in made.stdout
    assert "unreadable" in made.stdout
