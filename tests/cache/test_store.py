"""The store: what goes in comes out, and whatever else lies in its folder does no harm."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.cache import VARIABLE, Key, Store, folder, opened

POSIX = pytest.mark.skipif(os.name != "posix", reason="owners and rights are kept otherwise")


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "cache")


def files(store: Store) -> list[Path]:
    return [Path(path) for path, _ in store.entries()]


def only(store: Store) -> Path:
    (path,) = files(store)
    return path


@given(contents=st.dictionaries(st.tuples(st.sampled_from(["figure", "check"]), st.binary()), st.binary()))
def test_what_goes_in_comes_out(
    tmp_path_factory: pytest.TempPathFactory, contents: dict[tuple[str, bytes], bytes]
) -> None:
    place = tmp_path_factory.mktemp("store") / "cache"
    for (kind, key), content in contents.items():
        Store(place).put(kind, key, content)
    assert {at: Store(place).get(*at) for at in contents} == contents
    assert Store(place).get("other", b"") is None


def test_the_last_content_of_a_key_counts(store: Store) -> None:
    for content in (b"one", b"two"):
        store.put("figure", "ab", content)
    assert store.get("figure", "ab") == b"two"
    assert len(files(store)) == 1


@given(parts=st.lists(st.binary(max_size=6), max_size=4), others=st.lists(st.binary(max_size=6), max_size=4))
def test_parts_of_a_key_do_not_run_into_one_another(parts: list[bytes], others: list[bytes]) -> None:
    assert (Key(*parts).digest() == Key(*others).digest()) == (parts == others)


@pytest.mark.parametrize("kind", ["", "..", "a/b", "A", "a.1", "\0", "a" * 40])
def test_a_kind_is_a_word_and_no_path(store: Store, kind: str) -> None:
    store.put(kind, b"key", b"content")
    assert store.get(kind, b"key") is None
    assert files(store) == []


def test_an_entry_with_any_byte_changed_is_not_there(store: Store) -> None:
    store.put("figure", b"key", b"content")
    path = only(store)
    whole = path.read_bytes()
    for at in range(len(whole)):
        path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert store.get("figure", b"key") is None
    path.write_bytes(whole)
    assert store.get("figure", b"key") == b"content"


def test_an_entry_that_is_cut_off_or_goes_on_is_not_there(store: Store) -> None:
    store.put("figure", b"key", b"content")
    path = only(store)
    whole = path.read_bytes()
    for wrong in [*(whole[:end] for end in range(len(whole))), whole + b"\0", b"", b"\x80\x04N."]:
        path.write_bytes(wrong)
        assert store.get("figure", b"key") is None
    store.put("figure", b"key", b"content")
    assert store.get("figure", b"key") == b"content"


def test_entries_that_are_swapped_are_not_there(store: Store) -> None:
    store.put("figure", b"one", b"1")
    first = only(store)
    store.put("figure", b"two", b"2")
    second = next(path for path in files(store) if path != first)
    held = first.read_bytes(), second.read_bytes()
    first.write_bytes(held[1])
    second.write_bytes(held[0])
    assert store.get("figure", b"one") is None
    assert store.get("figure", b"two") is None


def test_an_entry_of_another_kind_is_not_there(store: Store, tmp_path: Path) -> None:
    store.put("figure", b"key", b"content")
    path = only(store)
    target = tmp_path / "cache" / "check.1" / path.parent.name / path.name
    target.parent.mkdir(parents=True)
    path.rename(target)
    assert store.get("check", b"key") is None
    assert store.get("figure", b"key") is None


@POSIX
def test_an_entry_that_is_a_link_or_a_pipe_is_not_read(store: Store, tmp_path: Path) -> None:
    store.put("figure", b"key", b"content")
    path = only(store)
    (tmp_path / "elsewhere").write_bytes(path.read_bytes())
    path.unlink()
    path.symlink_to(tmp_path / "elsewhere")
    assert store.get("figure", b"key") is None
    path.unlink()
    os.mkfifo(path)
    assert store.get("figure", b"key") is None  # And does not wait for a writer.


@POSIX
def test_files_and_folders_are_the_owners_alone(store: Store, tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        store.put("figure", b"key", b"content")
    finally:
        os.umask(before)
    for path in (tmp_path / "cache", *(tmp_path / "cache").rglob("*")):
        assert stat.S_IMODE(path.stat().st_mode) == (0o700 if path.is_dir() else 0o600), path


@POSIX
def test_a_folder_that_is_a_link_is_not_used(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir(0o700)
    Store(tmp_path / "real").put("figure", b"key", b"content")
    (tmp_path / "cache").symlink_to(tmp_path / "real")
    store = Store(tmp_path / "cache")
    store.put("figure", b"other", b"content")
    assert store.get("figure", b"key") is None
    assert store.clear() == 0
    assert store.refused() == "it is a link"
    assert len(files(Store(tmp_path / "real"))) == 1


@POSIX
def test_a_folder_that_others_may_write_is_not_used(tmp_path: Path) -> None:
    place = tmp_path / "cache"
    Store(place).put("figure", b"key", b"content")
    place.chmod(0o777)
    assert Store(place).get("figure", b"key") is None
    assert Store(place).refused() == "others may write into it"
    place.chmod(0o700)
    assert Store(place).get("figure", b"key") == b"content"


@POSIX
def test_a_folder_of_somebody_else_is_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "cache"
    Store(place).put("figure", b"key", b"content")
    other = os.geteuid() + 1
    monkeypatch.setattr(os, "geteuid", lambda: other)
    assert Store(place).get("figure", b"key") is None
    assert Store(place).refused() == "it belongs to somebody else"


@pytest.mark.parametrize("strange", ["thesis.md", "notes", "photos/", ".ssh/", "a.b/"])
def test_a_folder_in_which_others_have_files_is_left_alone(tmp_path: Path, strange: str) -> None:
    """Whoever names a home folder, or the root of a disk, keeps what lies there, down to files with names of ours."""
    home = tmp_path / "home"
    home.mkdir(0o700)
    other = home / strange
    if strange.endswith("/"):
        other.mkdir()
        other /= "held"
    other.write_bytes(b"years of work")
    entry = home / "check.1" / "ab" / ("c" * 62)
    entry.parent.mkdir(parents=True)
    entry.write_bytes(b"not ours either, whatever it is called")
    before = sorted(path for path in home.rglob("*"))
    store = Store(home)
    assert store.refused() == "other files lie in it: name a folder for this alone"
    store.put("check", b"key", b"content")
    assert store.get("check", b"key") is None
    assert store.clear() == 0
    assert sorted(path for path in home.rglob("*")) == before
    assert other.read_bytes() == b"years of work"


@pytest.mark.parametrize("harmless", ["written", "CACHEDIR.TAG", ".DS_Store"])
def test_what_systems_and_backups_put_into_folders_does_not_matter(store: Store, harmless: str) -> None:
    store.put("check", b"key", b"content")
    (Path(store.folder) / harmless).write_bytes(b"")
    again = Store(store.folder)
    assert again.get("check", b"key") == b"content"
    assert again.clear() == 1
    assert (Path(store.folder) / harmless).exists()


@POSIX
def test_the_root_of_the_disk_is_no_folder_for_it(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from physcalc_filter.cli import main

    monkeypatch.setenv(VARIABLE, "/")
    assert main(["cache", "--clear"]) == 0
    assert "not used: " in capsys.readouterr().out


@pytest.mark.parametrize("place", ["file", "file/below", "a" * 5000, "nul\0l"])
def test_a_place_that_cannot_be_one(tmp_path: Path, place: str) -> None:
    (tmp_path / "file").write_text("text", encoding="utf-8")
    store = Store(tmp_path / place)
    store.put("figure", b"key", b"content")
    assert store.get("figure", b"key") is None
    assert list(store.entries()) == []
    assert store.clear() == 0
    assert (tmp_path / "file").read_text(encoding="utf-8") == "text"


@POSIX
def test_a_folder_that_cannot_be_written_is_read_all_the_same(tmp_path: Path) -> None:
    """As another user than root, whom no right stops."""
    place = tmp_path / "cache"
    Store(place).put("figure", b"key", b"content")
    for path in sorted(place.rglob("*"), reverse=True):
        path.chmod(0o500 if path.is_dir() else 0o400)
    place.chmod(0o500)
    try:
        store = Store(place)
        store.put("figure", b"other", b"content")
        assert store.get("figure", b"key") == b"content"
        if os.geteuid():
            assert store.get("figure", b"other") is None
    finally:
        for path in (place, *place.rglob("*")):
            path.chmod(0o700)


@pytest.mark.parametrize("fails", ["open", "replace", "mkdir", "write"])
def test_a_full_disk_is_no_fault(store: Store, monkeypatch: pytest.MonkeyPatch, fails: str) -> None:
    def full(*_: object, **__: object) -> int:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, fails, full)
        store.put("figure", b"key", b"content")
        assert fails == "write" or store.get("figure", b"key") is None
    # Nothing half made is left either.
    assert [path for path in store_files(store) if path.name.startswith(".")] == []


def store_files(store: Store) -> list[Path]:
    return [path for path in Path(store.folder).rglob("*") if path.is_file()]


def test_the_oldest_go_first(tmp_path: Path) -> None:
    limit = 100 * 4096
    store = Store(tmp_path / "cache", limit)
    begin = time.time() - 100_000
    for number in range(400):
        store.put("figure", b"%d" % number, bytes(3000))
        for path in files(store):
            if path.stat().st_mtime > begin + 50_000:  # It has just been written.
                os.utime(path, (begin + number, begin + number))
    left = [number for number in range(400) if store.get("figure", b"%d" % number) is not None]
    # A file takes 4096 bytes at least, and an eighth more may have been written since the oldest were looked for.
    assert 80 <= len(left) <= 100 + 13
    assert left == list(range(400 - len(left), 400))


def test_what_is_used_stays(tmp_path: Path) -> None:
    store = Store(tmp_path / "cache", 100 * 4096)
    store.put("figure", b"used", b"")
    for number in range(400):
        old = time.time() - 7200
        for path in files(store):
            os.utime(path, (old, old))
        assert store.get("figure", b"used") == b""
        store.put("figure", b"%d" % number, bytes(3000))


def test_a_content_too_large_for_the_store_is_not_kept(tmp_path: Path) -> None:
    store = Store(tmp_path / "cache", 8_000)
    store.put("figure", b"key", bytes(1000))
    assert store.get("figure", b"key") is None
    store.put("figure", b"key", bytes(900))
    assert store.get("figure", b"key") == bytes(900)


def test_what_was_begun_and_left_is_taken_out(tmp_path: Path) -> None:
    store = Store(tmp_path / "cache", 80_000)
    store.put("figure", b"key", b"content")
    shard = only(store).parent
    old, new = shard / ".new-1-old", shard / ".new-2-young"
    for path in (old, new):
        path.write_bytes(b"half")
    os.utime(old, (1, 1))
    for number in range(10):
        store.put("figure", b"%d" % number, b"")
    assert not old.exists()
    assert new.exists()


def test_clearing_leaves_the_files_of_others(store: Store) -> None:
    store.put("figure", b"key", b"content")
    shard = only(store).parent
    others = [
        Path(store.folder) / "notes.txt",
        shard / "notes.txt",
        shard.parent / "notes",
        Path(store.folder) / "figure" / "00" / ("0" * 62),
    ]
    for path in others:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("mine", encoding="utf-8")
    assert store.clear() == 1
    assert files(store) == []
    assert all(path.exists() for path in others)
    assert store.get("figure", b"key") is None


WRITER = """
import os, sys
from physcalc_filter.cache import Store
store = Store(sys.argv[1], 400_000)
for round in range(60):
    for key in range(8):
        held = store.get("figure", b"%d" % key)
        assert held is None or held == bytes([key]) * 5000, key
        store.put("figure", b"%d" % key, bytes([key]) * 5000)
        store.put("figure", b"%d-%d-%d" % (os.getpid(), round, key), b"")
"""


def test_several_processes_write_at_once(tmp_path: Path) -> None:
    """Each reads whole entries or none, while the others write and take the oldest out."""
    path = os.pathsep.join(sys.path)
    started = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path / "cache")],
            env={**os.environ, "PYTHONPATH": path},
            stderr=subprocess.PIPE,
        )
        for _ in range(4)
    ]
    for process in started:
        _, said = process.communicate(timeout=120)
        assert process.returncode == 0, said.decode()
    store = Store(tmp_path / "cache", 400_000)
    assert all(store.get("figure", b"%d" % key) in (None, bytes([key]) * 5000) for key in range(8))
    assert [file for file in store_files(store) if file.name.startswith(".")] == []
    assert len(files(store)) <= 400_000 // 4096 * 9 // 8 + 4


@pytest.mark.parametrize("off", ["off", "OFF", " off ", "no", "0", "false"])
def test_it_is_switched_off(monkeypatch: pytest.MonkeyPatch, off: str) -> None:
    monkeypatch.setenv(VARIABLE, off)
    assert opened() is None


def test_the_variable_names_the_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(VARIABLE, str(tmp_path / "named"))
    store = opened()
    assert store is not None
    store.put("figure", b"key", b"content")
    assert (tmp_path / "named").is_dir()


@pytest.mark.parametrize(
    ("platform", "variables", "expected"),
    [
        # XDG Base Directory Specification 0.8: $XDG_CACHE_HOME, else $HOME/.cache; relative paths are ignored.
        ("linux", {"XDG_CACHE_HOME": "/somewhere"}, "/somewhere/physcalc"),
        ("linux", {"HOME": "/home/ann"}, "/home/ann/.cache/physcalc"),
        ("linux", {"HOME": "/home/ann", "XDG_CACHE_HOME": "here"}, "/home/ann/.cache/physcalc"),
        ("linux", {"HOME": "/home/ann", "XDG_CACHE_HOME": ""}, "/home/ann/.cache/physcalc"),
        # Apple, File System Programming Guide: the Library/Caches directory.
        ("darwin", {"HOME": "/Users/ann"}, "/Users/ann/Library/Caches/physcalc"),
        # Microsoft, KNOWNFOLDERID: FOLDERID_LocalAppData is %LOCALAPPDATA%.
        ("win32", {"LOCALAPPDATA": "/Users/ann/AppData/Local"}, "/Users/ann/AppData/Local/physcalc"),
        ("win32", {"LOCALAPPDATA": ""}, None),
    ],
)
@POSIX
def test_the_systems_own_folder(
    monkeypatch: pytest.MonkeyPatch, platform: str, variables: dict[str, str], expected: str | None
) -> None:
    for name in (VARIABLE, "XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", platform)
    assert folder() == expected


def test_no_content_is_read_as_code() -> None:
    """The room names nothing that makes objects of bytes, and imports nothing of ours but itself."""
    import ast

    import physcalc_filter.cache as room

    for path in Path(room.__path__[0]).glob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                assert not {alias.name.split(".")[0] for alias in node.names} - set(sys.stdlib_module_names)
                assert not {alias.name for alias in node.names} & {"pickle", "marshal", "shelve", "dill"}
            if isinstance(node, ast.ImportFrom):
                assert node.level == 1 or str(node.module).split(".")[0] in sys.stdlib_module_names
                assert node.level <= 1
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                assert node.func.id not in ("eval", "exec", "compile", "__import__")
