"""Files of the packages subfiles and import: TeX reads what is read here, and knows the places."""

from __future__ import annotations

import base64
import re
import subprocess
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.latex import install
from physcalc_filter.sources import read_source, weave
from physcalc_filter.sources.tex.pictures import Pictures
from programs import program
from tex_runs import built, environment, run_tex, text_of

ONE_DOT = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg=="  # PNG, 1 by 1
#: Every file says its own name.
FILES = {
    "main.tex": "\\documentclass{article}\n%s\n\\begin{document}\n"
    "\\import{a/}{one}\n\\subfile{b/two}\n\\input{data}\n\\subimport{b}{three}\n\\import*{a}{two.tex}\n"
    "\\includegraphics{dot}\n\\end{document}\n",
    "data.tex": "data",
    "only.tex": "only\n",
    "a/one.tex": "a-one \\input{data}\n\\input{only}\n\\subimport{deep/}{two}\n\\subfile{deep/four}\n"
    "\\includegraphics{dot}\n\\import{a/deep/}{two}\n\\input{data}\n\\includegraphics{far}\n",
    "a/two.tex": "a-two\n",
    "a/data.tex": "a-data %\n",
    "a/a/two.tex": "a-a-two\n",
    "a/deep/two.tex": "a-deep-two \\input{data}\n\\input{near} a-deep-two\n",
    "a/deep/near.tex": "a-deep-near % last",
    "a/deep/four.tex": "\\documentclass[../../main]{subfiles}\n\\usepackage{nowhere}\n\\begin{document}\na-deep-four\n"
    "\\input{near}\n\\includegraphics{dot}\n\\end{document}\n\\input{nowhere}\n",
    "b/two.tex": "\\documentclass[../main.tex]{subfiles}\n\\begin{document}\n\\input{\\subfix{../data}}\n"
    "b-two \\subfile{three}\n\\end{document}\n",
    "b/three.tex": "b-three \\input{only}\n",
}
PICTURES = ("a/dot.png", "a/deep/dot.png", "dot.png", "shown/dot.png", "far.png", "shown/far.png")


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


@pytest.mark.parametrize(
    "preamble",
    [
        "\\usepackage{import,subfiles}\n\\graphicspath{{shown/}}",
        "\\graphicspath{{shown/}}\n\\usepackage{import,subfiles}",
    ],
)
def test_tex_reads_the_files_that_are_read_here(tmp_path: Path, preamble: str) -> None:
    put(tmp_path, {**FILES, "main.tex": FILES["main.tex"] % f"\\usepackage{{graphicx}}\n{preamble}"})
    for name in PICTURES:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(base64.b64decode(ONE_DOT))
    command = [program("pdflatex"), "-interaction=nonstopmode", "-halt-on-error", "main.tex"]
    done = subprocess.run(
        command, cwd=tmp_path, env=environment(tmp_path), capture_output=True, timeout=240, check=False
    )
    assert done.returncode == 0, done.stdout.decode("utf-8", "replace")[-2000:]
    woven, problems = weave(read_source(tmp_path / "main.tex"), tmp_path)
    assert problems == []
    body = woven.text[woven.text.index("\\begin{document}") :]
    words = re.sub(r"%.*|\\[a-z]+\{[a-z]+\}", "", body).split()
    assert len(words) > 15
    assert " ".join(text_of(tmp_path / "main.pdf").split()) == " ".join([*words, "1"])
    pictures = Pictures(woven.text, (tmp_path,))
    shown = [
        pictures.find(found[1], woven.part_at(found.start()).paths)
        for found in re.finditer(r"\\includegraphics\{([a-z]+)\}", woven.text)
    ]
    log = (tmp_path / "main.log").read_text(encoding="utf-8", errors="replace")
    opened = set(re.findall(r"^File: (\S+) Graphic file", log, re.MULTILINE))
    assert opened == set(shown)


HEAD = "\\documentclass{article}\n\\usepackage{physcalc}\n\\usepackage{import,subfiles}\n"
QUESTION = (
    "\\begin{physquestion}[marks=2]\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"
    "\\begin{physcalculation}\nformula: w = m g\nfind: w in N to 1 dp\nanswer: %s N\n\\end{physcalculation}\n"
    "\\end{physquestion}\n"
)


@pytest.mark.parametrize("engine", ["pdflatex", "xelatex"])
def test_an_imported_question_is_worked_out_in_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], engine: str
) -> None:
    files = {
        "main.tex": HEAD
        + "\\begin{document}\n\\import{parts/}{one}\n\\subfile{parts/two}\n\\end{document}\n",
        "parts/one.tex": "\\subimport{deep/}{one}\n",
        "parts/deep/one.tex": QUESTION % "19.6",
        "parts/two.tex": "\\documentclass[../main]{subfiles}\n\\begin{document}\n"
        + QUESTION % "19.6"
        + "\\end{document}\n",
    }
    put(tmp_path, files)
    install(tmp_path)
    built(tmp_path, engine, "memo")
    for name in ("parts/deep/one.tex", "parts/two.tex"):
        put(tmp_path, {**files, name: files[name].replace("19.6", "21.6")})
        run_tex(tmp_path, engine, "memo")
        capsys.readouterr()
        assert main(["latex", str(tmp_path / "main")]) == 1
        line = 1 + files[name].splitlines().index("answer: 19.6 N")
        said = "".join(capsys.readouterr())
        assert f"{name}:{line}:9: answer-disagrees" in said
        assert main(["check", str(tmp_path / "main.tex")]) == 1
        assert f"{name}:{line}:9: answer-disagrees" in "".join(capsys.readouterr())
