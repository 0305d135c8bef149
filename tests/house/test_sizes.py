"""The house keeps its files and functions small; names say something."""

import ast
import statistics
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "filmreview"
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if path.name != "__init__.py")
VISIBLE = {"README.md", "DEVELOPERS.md", "pyproject.toml", "filmreview", "tests", "fixtures", "exports"}


def lines_of(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def functions() -> list[tuple[str, int]]:
    found = []
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                length = (node.end_lineno or node.lineno) - node.lineno + 1
                found.append((f"{path.relative_to(ROOT)}:{node.lineno} {node.name}", length))
    return found


def test_no_module_over_500_lines_and_half_under_150() -> None:
    lengths = {str(path.relative_to(ROOT)): lines_of(path) for path in MODULES}
    assert {name: length for name, length in lengths.items() if length > 500} == {}
    assert statistics.median(lengths.values()) < 150


def test_no_function_over_80_lines_and_half_under_10() -> None:
    lengths = functions()
    assert [entry for entry in lengths if entry[1] > 80] == []
    assert statistics.median(length for _, length in lengths) < 10


def test_no_name_that_says_nothing() -> None:
    empty_names = {"util", "utils", "helper", "helpers", "common", "core", "misc", "manager", "managers"}
    assert [str(path) for path in PACKAGE.rglob("*") if path.stem in empty_names] == []


def test_an_init_holds_a_docstring_and_no_code() -> None:
    for path in PACKAGE.rglob("__init__.py"):
        body = ast.parse(path.read_text(encoding="utf-8")).body
        allowed = 2 if path.parent == PACKAGE else 1  # the package itself also names its version
        assert ast.get_docstring(ast.Module(body, [])), path
        assert len(body) <= allowed, path


def test_the_visible_top_level_is_exactly_the_seven() -> None:
    listed = subprocess.run(["git", "-C", str(ROOT), "ls-files"], capture_output=True, text=True, check=False)
    if listed.returncode != 0:
        pytest.fail("the tests run from a git checkout: " + listed.stderr)
    tops = {name.split("/")[0] for name in listed.stdout.splitlines()}
    assert {top for top in tops if not top.startswith(".")} == VISIBLE
