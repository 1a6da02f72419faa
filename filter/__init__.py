"""The document side of physcalc, installed as `physcalc_filter`: from a Markdown or LaTeX source to a page or a report.

`pandoc_entry` is the Pandoc filter, `cli` the commands, `pipeline` the list of stages. Nothing is imported here, so
that an answer that was given before is found without loading the rest.
"""
