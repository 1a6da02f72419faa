"""Text on streams whose encoding lacks characters, as a pipe on Windows has (cp1252, cp437)."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.cli.lookalike import like

from physcalc.problems import Text
from physcalc.units import read_unit

EXAMPLE = Path(__file__).parents[2] / "example_docs" / "mechanics_test.md"
ENCODINGS = ("cp1252", "cp437", "cp1250", "shift_jis", "latin-1", "ascii")


@pytest.mark.parametrize(
    ("text", "encoding", "printed"),
    [
        # cp1252 has ¹ ² ³ and no other raised sign: a power is replaced as a whole.
        ("9,8 m·s⁻²", "cp1252", "9,8 m·s^-2"),
        ("6,63 × 10⁻³⁴ J·s", "cp1252", "6,63 × 10^-34 J·s"),
        ("m² and x³", "cp1252", "m² and x³"),
        ("m² and x³", "ascii", "m^2 and x^3"),
        ("T − m g sin θ", "cp1252", "T - m g sin theta"),
        ("├─ └─ ✓ →", "cp1252", "|- `- v ->"),
        ("v₁ = Δx / Δt", "latin-1", "v1 = Delta_x / Delta_t"),
        ("1\u202f200 Ω", "cp1252", "1 200 ohm"),
        ("漢", "cp1252", "?"),
    ],
)
def test_what_an_author_would_type_stands_for_it(text: str, encoding: str, printed: str) -> None:
    assert like(text, encoding) == printed


@given(st.text(), st.sampled_from(ENCODINGS))
def test_any_text_can_be_encoded(text: str, encoding: str) -> None:
    made = like(text, encoding)
    made.encode(encoding)
    if made != text:
        with pytest.raises(UnicodeEncodeError):
            text.encode(encoding)


@pytest.mark.parametrize("unit", ["m/s^2", "N m^2 kg^-2", "J/(kg K)", "ohm", "um", "uC", "°"])
@pytest.mark.parametrize("encoding", ENCODINGS)
def test_a_unit_that_was_replaced_is_read_as_the_same(unit: str, encoding: str) -> None:
    read = read_unit(Text(unit))
    again = read_unit(Text(like(read.text(), encoding).replace(".", " ")))
    assert (again.dimension, again.scale) == (read.dimension, read.scale)


def test_a_command_writes_to_a_pipe_of_windows() -> None:
    code = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-X", "utf8=0", "-c", code, "trace", str(EXAMPLE), "T"],
        capture_output=True,
        env={"PYTHONIOENCODING": "cp1252", "PATH": "/usr/bin:/bin", "PYTHONPATH": ":".join(sys.path)},
        check=True,
    )
    told = done.stdout.decode("cp1252").replace("\u00a0", " ")
    assert "g = 9,8 m·s^-2" in told
    assert "?" not in told
