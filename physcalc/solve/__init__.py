"""Room 6: exact values of trees, the unknown made the subject, sets of formulas, the choice among roots.

What may live here: whatever turns formulas and known values into every solution there is.
Nothing here prints or knows of marks.
"""
