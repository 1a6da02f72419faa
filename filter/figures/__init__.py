"""Room 2 of the document side: pictures of what was worked out, as data and in each output's own drawing language.

`picture` says what a picture is made of, `board` helps to make one (arrows, labels that keep clear of each other),
one module for each kind of figure makes one from what the engine found, and `typst`, `tikz`, `svg` and `raster`
write one down. Nothing here reads a document.
"""
