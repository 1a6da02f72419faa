"""Chromium without a window, for pages of ours."""

from __future__ import annotations

import html
import json
import re
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from ..programs import axe_core, program

_QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip

_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')

_LOOK = """<script src="axe.js"></script><script>
axe.run(document, {resultTypes: ["violations"]}).then(found => parent.postMessage(JSON.stringify({
  page: NUMBER, width: innerWidth, needed: document.documentElement.scrollWidth,
  dark: matchMedia("(prefers-color-scheme: dark)").matches,
  violations: found.violations.map(one => [one.id, one.nodes[0].html.slice(0, 300)])}), "*"))
</script></body>"""

_HOST = """<!DOCTYPE html><pre id="said"></pre>FRAMES<script>
addEventListener("message", message => document.getElementById("said").append(message.data + String.fromCharCode(10)))
</script>"""


def _run(folder: Path, *arguments: str) -> str:
    command = [program("chromium"), *_QUIET, f"--user-data-dir={folder / 'profile'}", *arguments]
    return subprocess.run(command, check=True, capture_output=True, timeout=240).stdout.decode()


def printed(page: Path, folder: Path) -> Path:
    """The page as a browser prints it."""
    made = folder / f"{page.stem}.pdf"
    _run(folder, f"--print-to-pdf={made}", page.absolute().as_uri())
    return made


def looked_at(
    pages: Sequence[Path], folder: Path, width: int, *, dark: bool = False, opened: bool = False
) -> list[dict[str, Any]]:
    """What axe-core finds in each page, and how wide it is, in a window of a width in pixels.

    Args:
        pages: the pages.
        folder: a folder of the test's own.
        width: how wide the window is.
        dark: whether the reader prefers dark pages.
        opened: whether what folds away is opened first.
    """
    # A page of ours lets no script run: the copy that is looked at has to.
    (folder / "axe.js").write_bytes(axe_core().read_bytes())
    frames = ""
    for number, page in enumerate(pages):
        text = _POLICY.sub("", page.read_text(encoding="utf-8"))
        text = text.replace("<details", "<details open") if opened else text
        before, _, after = text.rpartition("</body>")
        copy = before + _LOOK.replace("NUMBER", str(number)) + after
        (folder / f"page-{number}.html").write_text(copy, encoding="utf-8")
        # A window is never narrower than some 500 pixels, a frame is.
        frames += f'<iframe src="page-{number}.html" width="{width}" height="900"></iframe>'
    host = folder / "host.html"
    host.write_text(_HOST.replace("FRAMES", frames), encoding="utf-8")
    shade = ["--force-dark-mode", "--blink-settings=preferredColorScheme=0"] if dark else []
    said = _run(folder, *shade, "--virtual-time-budget=60000", "--dump-dom", host.as_uri())
    found = re.search(r'<pre id="said">(.*?)</pre>', said, re.DOTALL)
    assert found
    reports = [json.loads(line) for line in html.unescape(found[1]).splitlines()]
    assert sorted(report["page"] for report in reports) == list(range(len(pages)))
    return sorted(reports, key=lambda report: int(report["page"]))
