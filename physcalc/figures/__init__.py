"""Room 9.6: what a figure shows, found from the data in scope: forces, situations, fields, circuits, graphs.

For each kind one module holds what an author says (`...Text`), what comes of it (`...Diagram`) and the way between.
Some find quantities on the way (currents, a gradient), which later calculations use. Nothing is drawn here.
"""
