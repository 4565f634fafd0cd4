"""Hours of the day by the number, as on a timetable.

"2 p.m." ends in a full stop of its own, which a sentence that ends with it would double, and cannot stand in a column
under "10:30".
"""

TIME_FORMAT = "H:i"
DATETIME_FORMAT = "j M Y, H:i"
