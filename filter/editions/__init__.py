"""Room 3: paper, memo and guide: a question and its working become the elements of a page.

What may live here: what each edition shows, the words a page says by itself, and how each part of a page
looks in each output format.
"""
