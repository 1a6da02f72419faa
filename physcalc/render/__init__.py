"""Room 9: working → TeX maths and plain text. The only room with backslashes.

What may live here: how a tree or a value looks in maths. No marks, no documents.
"""

from ..language.plain import plain, plain_name, plain_number, plain_printed
from .tex import tex, tex_name, tex_printed, tex_text

__all__ = [
    "plain",
    "plain_name",
    "plain_number",
    "plain_printed",
    "tex",
    "tex_name",
    "tex_printed",
    "tex_text",
]
