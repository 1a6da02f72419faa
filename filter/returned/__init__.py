"""Room 3 of the document side: a Word file that comes back, compared with the edition that was handed out.

What may live here: the reading of Word files as plain text, the comparison, and where what was changed stands in the
source. How an edition is made is not known here.
"""

from .comparing import Change, changes, likeness
from .placing import problems_of
from .problems import WordChanged, WordComment, WordUnlike, WordUnreadable
from .reading import Comment, Passage, WordText, read_word

__all__ = [
    "Change",
    "Comment",
    "Passage",
    "WordChanged",
    "WordComment",
    "WordText",
    "WordUnlike",
    "WordUnreadable",
    "changes",
    "likeness",
    "problems_of",
    "read_word",
]
