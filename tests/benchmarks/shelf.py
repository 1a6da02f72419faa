"""How fast a shelf of papers is checked, and in how much memory: `python tests/benchmarks/shelf.py`.

Makes 200 and 2,000 papers of 20 calculations, and checks them with one process and with two, and once more when every
answer is kept (`kept`: `new` fills the store, `yes` finds them there). Memory is that of the
process that was started (`main`) and of all processes together, at its highest (Linux: from /proc). Nothing passes or
fails; the table is read by a person.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable, Sequence
from pathlib import Path

from run import SINGLE

BLOCKS = 20
_PROGRAM = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"


def paper(number: int) -> str:
    """A paper of 20 calculations; which ones, and in which order, depends on its number."""
    parts = [f"---\ntitle: Paper {number}\nlang: en-ZA\n---\n"]
    for at in range(BLOCKS):
        data, formula, find = SINGLE[(at * (number % 7 + 1) + number) % len(SINGLE)]
        given = "\n".join(f"{name}: {value}" for name, value in data.items())
        parts.append(
            f"# Question {at + 1} {{.question #q{at} marks=4}}\n\n"
            f"The value `{next(iter(data))}`{{.value}} is known.\n\n"
            f"```{{.given}}\n{given}\n```\n\n```{{.calc}}\nformula: {formula}\nfind: {find}\n```\n"
        )
    return "\n".join(parts)


def written(folder: Path, count: int) -> Path:
    """A folder with so many papers."""
    folder.mkdir()
    for number in range(count):
        (folder / f"paper-{number:05}.md").write_text(paper(number), encoding="utf-8")
    return folder


def measured(arguments: Sequence[str]) -> tuple[float, int, int]:
    """Seconds, and the highest memory in kB of the process that is started and of all of them together."""
    begun = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-c", _PROGRAM, *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    own = whole = 0
    while process.poll() is None:
        sizes = {pid: _resident(pid) for pid in _family(process.pid)}
        own, whole = max(own, sizes.get(process.pid, 0)), max(whole, sum(sizes.values()))
        time.sleep(0.05)
    return time.perf_counter() - begun, own, whole


def _family(pid: int) -> Iterable[int]:
    """A process and all that it started."""
    yield pid
    for task in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            children = task.read_text(encoding="ascii").split()
        except OSError:
            continue
        for child in children:
            yield from _family(int(child))


def _resident(pid: int) -> int:
    try:
        status = Path(f"/proc/{pid}/status").read_text(encoding="ascii", errors="replace")
    except OSError:
        return 0
    sizes = [line.split()[1] for line in status.splitlines() if line.startswith("VmRSS:")]
    return int(sizes[0]) if sizes else 0


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--counts", type=int, nargs="+", default=[200, 2_000])
    parser.add_argument("--jobs", type=int, nargs="+", default=[1, 2])
    parser.add_argument("--form", default="text")
    asked = parser.parse_args()
    print("papers  jobs  kept  seconds  papers/s  ms/paper  main MB  all MB")
    with tempfile.TemporaryDirectory() as name:
        for count in asked.counts:
            folder = written(Path(name) / str(count), count)
            store = Path(name) / f"cache-{count}"
            # Nothing kept, with one process and with more; then once to fill the store, and once from it.
            for jobs, kept in [
                *((jobs, "no") for jobs in asked.jobs),
                (asked.jobs[-1], "new"),
                (asked.jobs[-1], "yes"),
            ]:
                os.environ["PHYSCALC_CACHE"] = "off" if kept == "no" else str(store)
                arguments = ["check", str(folder), "--jobs", str(jobs), "--format", asked.form]
                seconds, own, whole = measured(arguments)
                print(
                    f"{count:>6}  {jobs:>4}  {kept:>4}  {seconds:>7.1f}  {count / seconds:>8.1f}"
                    f"  {1000 * seconds / count:>8.1f}  {own / 1024:>7.0f}  {whole / 1024:>6.0f}",
                    flush=True,
                )


if __name__ == "__main__":
    main()
