"""TeX maths in raw Markdown."""

from __future__ import annotations

import re

#: Maths as pandoc's Markdown reads it: a dollar sign with no blank behind the first and before the last, and no
#: digit behind the last; two dollar signs for a line of its own. Neither reaches over a blank line.
MATHS = re.compile(
    r"""(?<![\\$`])
    (?: \$\$ (?P<display> (?: \\. | (?!\n[ \t]*\r?\n) [^\\$] )+ ) \$\$
      | \$ (?=[^\s$]) (?P<inline> (?: \\. | (?!\n[ \t]*\r?\n) [^\\$] )+ ) (?<!\s) \$ (?!\d) )""",
    re.VERBOSE | re.DOTALL,
)
