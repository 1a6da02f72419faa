"""Documents that would take all time or memory are refused, each with a message of its own."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.document import reading
from physcalc_filter.outputs import typst_run
from physcalc_filter.outputs.problems import OutputFailed

from physcalc.problems import Span

from .conftest import ENDLESS, Run, question

Physcalc = Callable[..., Run]

SQUARES = [f"x_{at}^2 + x_{(at + 1) % 12} = {at + 3}" for at in range(12)]
HEAVY = [
    ("a tower of powers", ["a: 2"], ["formula: x = 9^9^9", "find: x"], "number-beyond-sense"),
    ("powers of a datum", ["a: 9"], ["formula: x = a^a^a^a", "find: x"], "number-beyond-sense"),
    ("a datum of powers", ["a: 9^9^9^9^9"], ["formula: x = a", "find: x"], "number-beyond-sense"),
    ("a power of ten", ["a: 10^400 m"], ["formula: x = a^99", "find: x"], "number-beyond-sense"),
    ("an exponential", ["a: 99999"], ["formula: x = exp(exp(a))", "find: x"], "number-beyond-sense"),
    ("many digits", ["a: " + "1" * 5000], ["formula: x = a", "find: x"], "number-too-long"),
    ("many brackets", ["a: 1"], ["formula: x = " + "(" * 250 + "a" + ")" * 250, "find: x"], "formula-unreadable"),
    ("a long formula", ["a: 1"], ["formula: x = " + " + ".join(["a"] * 9000), "find: x"], "formula-unreadable"),
    ("a formula of a megabyte", ["a: 1"], ["formula: x = " + "a + " * 250_000 + "a", "find: x"], "block-too-long"),
    ("a power of a unit", ["a: 1 m^999999999"], ["formula: x = a", "find: x"], "unit-unreadable"),
    ("many places", ["a: 1"], ["formula: x = a/3", "find: x to 999999999 dp"], "phrase-unreadable"),
    (
        "twelve squares",
        ["a: 1"],
        ["formula:", *(f"  - {one}" for one in SQUARES), "find:", *(f"  - x_{at}" for at in range(12))],
        "work-too-much",
    ),
    ("tangents of tangents", ["a: 1"], ["formula: tan(tan(tan(x))) = x", "find: x"], "work-too-much"),
    ("a wave of many turns", ["a: 1"], ["formula: sin(1000 x) = x / 10", "find: x in rad"], "work-too-much"),
    ("no angle at all", ["a: 3"], ["formula: sin(x) = 2", "find: x in rad"], "no-real-root"),
    ("data in a circle", ["a: b", "b: a"], ["formula: x = a", "find: x"], "given-cycle"),
    ("doubled again and again", ["a_0: 1.1", *(f"a_{n + 1}: a_{n} a_{n}" for n in range(60))],
     ["formula: x = a_60", "find: x"], "number-beyond-sense"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("given", "calc", "slug"), [case[1:] for case in HEAVY], ids=[case[0] for case in HEAVY]
)
def test_a_calculation_without_an_end(
    given: list[str], calc: list[str], slug: str, folder: Path, physcalc: Physcalc
) -> None:
    (folder / "a.md").write_text(question(given, calc), encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.code == 1
    assert f": {slug}" in done.said


def test_all_calculations_of_a_document_share_what_may_be_done(folder: Path, physcalc: Physcalc) -> None:
    heavy = "\n".join(
        f"# {at} {{.question marks=3}}\n\n```{{.calc}}\nformula: tan(tan(tan(x))) = x / {at}\nfind: x\n```\n"
        for at in range(1, 60)
    )
    light = "# 60 {.question #last marks=3}\n\n```{.calc}\nformula: tan(x) = 3 x\nfind: x\n```\n"
    (folder / "a.md").write_text(heavy + light, encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.said.count("work-too-much") == 60


def test_thousands_of_names_and_blocks(folder: Path, physcalc: Physcalc) -> None:
    given = [f"a_{at}: {at} m" for at in range(3000)]
    text = question(given, ["formula: x = a_7 + a_2999", "find: x in m", "answer: 3006 m"])
    text += "\n\n".join("```{.given}\nb: 1 m\n```" for _ in range(3000))
    (folder / "a.md").write_text(text, encoding="utf-8")
    assert "answer-disagrees" not in physcalc("check", "a.md").said


@pytest.mark.parametrize("lang", ["af", "de", "fr"])
def test_a_value_of_many_words_in_another_language(lang: str, folder: Path, physcalc: Physcalc) -> None:
    text = f"---\nlang: {lang}\n---\n\n```{{.given}}\nF: 5 N {'a ' * 90_000}\n```\n"
    (folder / "a.md").write_text(text, encoding="utf-8")
    assert physcalc("check", "a.md").code == 1


def test_thousands_of_links_that_lead_nowhere(folder: Path, physcalc: Physcalc) -> None:
    text = "".join(f"## H {n} {{#id{n}}}\n\n[a](#xx{n})\n\n" for n in range(12_000))
    (folder / "a.md").write_text(text, encoding="utf-8")
    assert physcalc("check", "a.md").said.count("link-unknown") == 1000


def test_a_line_of_thousands_of_problems(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text("`m`{.value} " * 1500, encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.said.count("name-without-value") == 1000
    assert "500 more problems are not shown" in done.said
    assert physcalc("check", "a.md", "--max-problems", "0").said.count("name-without-value") == 1500


BOMB = "\n".join(
    ["---", "a: &a [x, x, x, x, x, x, x, x, x]"]
    + [f"{new}: &{new} [{', '.join([f'*{old}'] * 9)}]" for old, new in zip("abcdef", "bcdefg", strict=True)]
    + ["---", "", "text", ""]
)


def test_front_matter_that_repeats_itself_is_refused_at_once(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(BOMB, encoding="utf-8")
    done = physcalc("check", "a.md")
    assert "a.md:5:16: front-matter-unreadable: the front matter has more than 20 aliases" in done.said
    assert "--limit aliases=40" in done.said


@pytest.mark.parametrize(
    "text",
    ["title: the *best* of *all*, *ever*", "title: '*a'", "note: |\n  - *a\n  * b", "a: 2 * 3", "b: 3 *a"],
)
def test_a_star_in_front_matter_is_not_always_an_alias(
    text: str, folder: Path, physcalc: Physcalc, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PHYSCALC_LIMITS", "aliases=1")
    (folder / "a.md").write_text(f"---\n{text}\n---\n\ntext\n", encoding="utf-8")
    assert "more than 1 aliases" not in physcalc("check", "a.md").said


@pytest.mark.parametrize(
    "text",
    [BOMB, "[" * 20_000 + "a" + "]" * 20_000, "`" * 50_000 + "{.value}", ">" * 20_000 + " a", "<" * 50_000],
    ids=["anchors", "brackets", "backticks", "quotations", "tags"],
)
def test_what_pandoc_would_never_finish_is_given_up(
    text: str, folder: Path, physcalc: Physcalc, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PHYSCALC_LIMITS", "read-seconds=1,aliases=1000")
    (folder / "a.md").write_text(text, encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.code == 2
    assert "document-too-heavy: the document cannot be read within 1 seconds" in done.said


def test_pandoc_gets_no_more_memory_than_it_needs(
    folder: Path, physcalc: Physcalc, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PHYSCALC_LIMITS", "read-memory=20")
    (folder / "a.md").write_text("*a* " * 200_000, encoding="utf-8")
    assert "document-too-heavy: the document cannot be read within 20 MB" in physcalc("check", "a.md").said


def test_a_tree_out_of_all_proportion_is_refused(
    folder: Path, physcalc: Physcalc, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "_TREE_AT_LEAST", 0)
    few = "\n".join([*BOMB.splitlines()[:5], "---", "", "text", ""])
    (folder / "a.md").write_text(few, encoding="utf-8")
    assert "document-too-heavy" in physcalc("check", "a.md", "--limit", "aliases=500").said


def test_a_file_of_many_megabytes_is_not_read(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text("a " * 1_250_000, encoding="utf-8")
    assert "file-too-large" in physcalc("check", "a.md").said


def test_typst_without_an_end_is_stopped(tmp_path: Path) -> None:
    with pytest.raises(OutputFailed) as caught:
        typst_run.compiled(ENDLESS.encode(), tmp_path, Span(), 1.0)
    assert "it was stopped after 1 seconds" in caught.value.sentence()


def test_typst_gets_no_more_memory_than_it_needs(tmp_path: Path) -> None:
    with pytest.raises(OutputFailed):
        typst_run.compiled(
            b'#let s = "a" * 100000000\n#range(100).map(n => s + str(n)).join().len()', tmp_path, Span()
        )


def test_the_same_picture_again_and_again(folder: Path, physcalc: Physcalc) -> None:
    with (folder / "a.png").open("wb") as file:
        file.truncate(30_000_000)
    (folder / "a.md").write_text("![a](a.png)\n\n" * 40, encoding="utf-8")
    done = physcalc("build", "a.md", "-o", "a.html")
    assert done.code == 2
    assert "makes more than 100 MB" in done.said


LIMITED = [
    ("file-size=100", ["a: 1"], ["formula: x = a", "find: x"], "file-too-large"),
    ("block-length=10", ["a: 1"], ["formula: x = a", "find: x"], "block-too-long"),
    ("block-depth=1", ["a: 1"], ["formula: x = a", "find: x", "marks:", "  answer: 3"], "block-too-long"),
    ("nesting=1", ["a: 1"], ["formula: x = a", "find: x"], "document-nested"),
    ("formula-length=4", ["a: 1"], ["formula: x = a", "find: x"], "formula-unreadable"),
    ("digits=3", ["a: 1234"], ["formula: x = a", "find: x"], "number-too-long"),
    ("exponent=3", ["a: 1e4"], ["formula: x = a", "find: x"], "number-too-long"),
    ("work=5", ["a: 1"], ["formula: sin(x) + x = a", "find: x"], "work-too-much"),
    ("document-work=5", ["a: 1"], ["formula: sin(x) + x = a", "find: x"], "work-too-much"),
]


@pytest.mark.parametrize(("limit", "given", "calc", "slug"), LIMITED, ids=[case[0] for case in LIMITED])
def test_each_limit_can_be_set_and_says_how(
    limit: str, given: list[str], calc: list[str], slug: str, folder: Path, physcalc: Physcalc
) -> None:
    (folder / "a.md").write_text(question(given, calc), encoding="utf-8")
    assert slug not in physcalc("check", "a.md").said
    done = physcalc("check", "a.md", "--limit", limit)
    assert done.code != 0
    assert slug in done.said
    # The limit is that of this run: the next one knows nothing of it.
    assert slug not in physcalc("check", "a.md").said
    if slug != "document-nested":
        assert f"--limit {limit.split('=')[0]}=" in done.said


def test_more_can_be_allowed(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(
        question(["a: 1"], ["formula: x = " + " + ".join(["a"] * 300), "find: x"]), "utf-8"
    )
    assert "formula-unreadable" in physcalc("check", "a.md").said
    assert "formula-unreadable" not in physcalc("check", "a.md", "--limit", "formula-length=3000").said


@pytest.mark.parametrize(
    "limit", ["formula-length", "formula-length=x", "formula=3", "work=0", "digits=99999"]
)
def test_what_is_no_limit_is_refused(limit: str, folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(question(["a: 1"], ["formula: x = a", "find: x"]), encoding="utf-8")
    done = physcalc("check", "a.md", "--limit", limit)
    assert done.code == 2
    assert "document-work=300000" in done.said


def test_a_document_sets_no_limit(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(
        question(["a: 1"], ["formula: x = a", "find: x"], "limits: {work: 99}"), encoding="utf-8"
    )
    assert "setting-unknown" in physcalc("check", "a.md").said


NEAR = question(
    ["d: 1e-300"], ["formula: (x - 1) (x - 1 - d^12) (x - 1 - 2 d^12) = 0", "find: x", "take: largest"]
)
#: The example of Mignotte (1982) for roots as near to one another as a polynomial of such numbers can have them.
MIGNOTTE = question(["a: 1e250"], ["formula: x^8 = 2 (a x - 1)^2", "find: x", "take: largest"])


@pytest.mark.parametrize("text", [NEAR, MIGNOTTE], ids=["a short formula", "mignotte"])
def test_roots_too_near_to_one_another_are_counted_before(
    text: str, folder: Path, physcalc: Physcalc
) -> None:
    (folder / "a.md").write_text(text, encoding="utf-8")
    assert "work-too-much" in physcalc("check", "a.md").said


OTHERS = "\n".join(
    f"# {at} {{.question}}\n\n```{{.given}}\na: {at}\n```\n\n```{{.calc}}\nformula: {formula}\nfind: x\nanswer: 99\n```\n"
    for at, formula in ((2, "x = a"), (3, "x^3 + x = a"))
)


def test_what_takes_too_much_stops_its_own_calculation_alone(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(MIGNOTTE + OTHERS, encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.said.count("work-too-much") == 1
    # The others are worked out: their typed answers are seen to be wrong.
    assert done.said.count("answer-disagrees") == 2


@pytest.mark.parametrize(
    "formula",
    ["sqrt(1 + " * 39 + "a" + ")" * 39, "1 / (1 + " * 39 + "a" + ")" * 39, "(2 + " * 39 + "a" + ")" * 39],
    ids=["roots", "fractions", "brackets"],
)
def test_what_is_nested_deep_is_set_all_the_same(formula: str, folder: Path, physcalc: Physcalc) -> None:
    """Each level takes as much work as the one before it, and not twice as much."""
    (folder / "a.md").write_text(question(["a: 2"], [f"formula: x = {formula}", "find: x"]), encoding="utf-8")
    assert physcalc("build", "a.md", "-o", "a.html", "--edition", "memo").code == 0


SQUARES_OF_MEMORY = {
    "questions inside one another": "".join(
        f"{'#' * (1 + at % 6)} Q {at} {{.question}}\n\n" for at in range(8000)
    ),
    "data seen by every question": "".join(
        "```{.given}\n" + "".join(f"{name}_{at}: {at} m\n" for at in range(3000)) + "```\n\n" for name in "ab"
    )
    + "".join(
        f"# {at} {{.question}}\n\n```{{.calc}}\nformula: x = a_1\nfind: x\n```\n\n" for at in range(2500)
    ),
}
MEASURED = r"""
import re, sys
from pathlib import Path
from physcalc_filter.cli import main
code = main(["check", sys.argv[1]])
# Not by getrusage, which counts what the process that started this one held.
most = re.search(r"VmHWM:\s*(\d+) kB", Path("/proc/self/status").read_text())
print(code, int(most[1]) // 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="counts memory in the units of Linux")
@pytest.mark.parametrize("text", SQUARES_OF_MEMORY.values(), ids=SQUARES_OF_MEMORY)
def test_memory_does_not_grow_with_the_square_of_a_document(text: str, folder: Path) -> None:
    (folder / "a.md").write_text(text, encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-c", MEASURED, "a.md"], capture_output=True, text=True, timeout=300, check=True
    )
    code, megabytes = done.stdout.splitlines()[-1].split()
    assert int(code) == 0
    assert int(megabytes) < 400
