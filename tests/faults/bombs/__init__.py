"""Files made to take a reader's time or memory; each is read in a process that has bounds.

`python -m tests.faults.bombs FOLDER` reads them all and prints what came of each, a line of JSON.
"""
