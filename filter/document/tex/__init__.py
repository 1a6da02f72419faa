"""Documents in LaTeX: pandoc's tree with the same elements as a Markdown document has."""

from .reading import Read, read_tex

__all__ = ["Read", "read_tex"]
