"""Tests of this folder share the papers of a shelf, in `shelf_papers.py`."""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent)]
